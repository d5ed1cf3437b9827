package e2e

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
)

// catchFile keeps what the page offers as a download, for a test to look at.
const catchFile = `(() => {
	const make = URL.createObjectURL.bind(URL);
	URL.createObjectURL = blob => {
		if (!blob.type.startsWith("image/")) blob.text().then(text => { window.offered = text; });
		return make(blob);
	};
	Object.defineProperty(navigator, "canShare", {value: undefined, configurable: true});
})();`

// The record that one phone saves brings the whole job to another, and the
// other saves the very same bytes.
func TestSafeCopyBringsAllBack(t *testing.T) {
	p := NewTab(t, shared, Before(catchFile))
	p.Size(walkWidth, walkHeight)
	p.Go(Serve(t).URL + "/")
	p.Tap("Sample jobs")
	p.Sees("The sample jobs are here")
	at := p.jobs()["Invented hut"]
	saved := p.save(at)
	path := filepath.Join(t.TempDir(), "hut.txt")
	if err := os.WriteFile(path, []byte(saved), 0o644); err != nil {
		t.Fatal(err)
	}
	p.visit(at)
	counts := p.counted()

	other := NewTab(t, shared, Before(catchFile))
	other.Size(walkWidth, walkHeight)
	other.Go(Serve(t).URL + "/")
	other.Do(chromedp.SetUploadFiles("#job-file", []string{path}, chromedp.ByQuery))
	other.Sees("The record was brought in")
	other.Until("the job is on the list", `document.querySelector("a.job")`)
	there := other.jobs()["Invented hut"]
	if there != at {
		t.Fatalf("the job came as %s, was %s", there, at)
	}
	if again := other.save(there); again != saved {
		t.Errorf("the second phone saves %d bytes, the first saved %d", len(again), len(saved))
	}
	other.visit(there)
	if got := other.counted(); got != counts {
		t.Errorf("the second phone counts %s, the first %s", got, counts)
	}
}

// save saves the record of a job and returns it.
func (p *Phone) save(job string) string {
	p.T.Helper()
	p.Front()
	p.visit(job + "/handover")
	p.Eval(`window.offered = ""`, nil)
	p.Tap("Save the record (.txt)")
	p.Until("a file is offered", `window.offered`)
	p.Sees("the signed record with")
	var text string
	p.Eval(`window.offered`, &text)
	return text
}

// counted is how many findings have each state, by the bank sheet.
func (p *Phone) counted() string {
	p.T.Helper()
	p.Until("the counts are there", `document.querySelector(".counts")`)
	var text string
	p.Eval(`document.querySelector(".counts").innerText.replace(/\s+/g, " ")`, &text)
	return text
}
