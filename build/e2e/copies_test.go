package e2e

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
)

// downloads sends what the browser of a tab saves into a folder.
func (p *Phone) downloads(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	b := chromedp.FromContext(p.ctx).Browser
	if err := browser.SetDownloadBehavior(browser.SetDownloadBehaviorBehaviorAllow).WithDownloadPath(folder).Do(cdp.WithExecutor(p.ctx, b)); err != nil {
		t.Fatal(err)
	}
	return folder
}

// saved waits for the one file of a kind in a folder.
func saved(t *testing.T, folder, pattern string) string {
	t.Helper()
	var found []string
	err := wait(func() error {
		found, _ = filepath.Glob(filepath.Join(folder, pattern))
		if len(found) != 1 {
			return os.ErrNotExist
		}
		return nil
	})
	if err != nil {
		t.Fatalf("%s: %d files in %s", pattern, len(found), folder)
	}
	return found[0]
}

// With the server's content policy in force, what is saved lands in the
// downloads under a name that says what it is; a new phone opens it, also after
// a mail program has changed its line ends, and finds the same.
func TestSavedFilesOpenOnAFreshPhone(t *testing.T) {
	server := Serve(t)
	p := OpenIn(t, Launch(t), server.URL+"/")
	p.Size(walkWidth, walkHeight)
	folder := p.downloads(t)
	p.Tap("Sample jobs")
	p.Sees("The sample jobs are here")
	before := p.recorded()
	p.Tap("Safe copy of all")
	p.Sees("the signed record with")
	all := saved(t, folder, "lugmark-all-jobs-*.txt")

	at := p.jobs()["Invented hut"]
	p.visit(at)
	counts := p.counted()
	p.visit(at + "/handover")
	p.Tap("Save as plain job file (.json)")
	p.Sees("It is not signed")
	plain := saved(t, folder, "lugmark-invented-hut-*.json")
	p.Shot("copies-saved")

	raw, err := os.ReadFile(all)
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(raw, []byte("\ne ")); n != before {
		t.Errorf("the file has %d events, the phone %d", n, before)
	}
	mailed := filepath.Join(t.TempDir(), "mailed.txt")
	if err := os.WriteFile(mailed, bytes.ReplaceAll(raw, []byte("\n"), []byte("\r\n")), 0o644); err != nil {
		t.Fatal(err)
	}
	fresh := OpenIn(t, Launch(t), server.URL+"/")
	fresh.Size(walkWidth, walkHeight)
	fresh.Sees("No job on this phone yet.")
	fresh.Do(chromedp.SetUploadFiles("#job-file", []string{mailed}, chromedp.ByQuery))
	fresh.Sees("The record was brought in")
	fresh.Sees("passed over")
	if n := fresh.recorded(); n != before {
		t.Errorf("%d events on the fresh phone, %d on the other", n, before)
	}
	fresh.Do(chromedp.SetUploadFiles("#job-file", []string{all}, chromedp.ByQuery))
	fresh.Sees("0 new entries")
	fresh.visit(fresh.jobs()["Invented hut"])
	if got := fresh.counted(); got != counts {
		t.Errorf("the fresh phone counts %s, the other %s", got, counts)
	}

	fresh.visit("/")
	fresh.Do(chromedp.SetUploadFiles("#job-file", []string{plain}, chromedp.ByQuery))
	fresh.Sees("The file was added as a new job.")
	if got := fresh.counted(); got != counts {
		t.Errorf("the plain file counts %s, the job %s", got, counts)
	}
}

// A slip in the layout is put right without a new job.
func TestALayoutIsCorrected(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	at := w.address()
	w.visit(at + "/read/rest-voltage/b4")
	w.Pad("13.282", true)
	w.TapID("keep")
	w.Sees("kept")
	w.visit(at)
	w.On("Change the layout")
	w.At("Layout")
	w.On("One less: In parallel")
	w.Sees("entries belong to parts that leave the drawing")
	w.On("Keep this layout")
	w.At("Invented jetty")
	w.Sees("The layout is now 2S × 1P.")
	w.On("About the bank")
	w.Sees("No longer in the drawing")
	w.Sees("13.282")
	w.visit(at + "/layout")
	w.On("One more: In parallel")
	w.On("Keep this layout")
	w.Sees("The layout is now 2S × 2P.")
	w.Sees("13.282")
}
