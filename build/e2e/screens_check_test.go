package e2e

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// give writes a file for the picker of a phone.
func give(t *testing.T, name string, text []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// A person with a record file and a sheet checks that they belong together:
// without signal, on a narrow phone, and nothing is brought in.
func TestAnyoneChecksARecord(t *testing.T) {
	server := NewFront(t, Serve(t))
	p := NewTab(t, shared, Before(catchFile))
	p.Size(360, walkHeight)
	p.Go(server.URL + "/")
	p.Tap("Sample jobs")
	p.Sees("The sample jobs are here")
	at := p.jobs()["Invented hut"]
	p.visit(at + "/handover")
	for _, who := range []struct{ label, name string }{{"technician", "Ines Varga"}, {"owner", "Olu Brandt"}} {
		p.Type("Type the full name to sign: "+who.label, who.name)
		p.TapNth("Sign", 0)
		p.Sees("Signed by " + who.name)
	}
	p.Tap("Seal the sheet")
	p.Sees("Sealed, revision 1.")
	var print string
	p.Eval(`document.querySelector(".fp").innerText`, &print)
	file := []byte(p.save(at))
	p.visit(at + "/handover")
	p.Tap("Check a record against a printed sheet")
	p.Sees("It is not brought in, and nothing leaves the phone.")
	p.Axe()
	p.Shot("check-empty-360")

	// Another phone that has never seen the job, and has no signal by now.
	q := OpenIn(t, Launch(t), server.URL+"/")
	q.Sees("Ready without signal")
	server.Lead(t, nil)
	q.Size(320, walkHeight)
	q.Tap("Check a record")
	q.Reload()
	q.Sees("Open a record file (.txt)")
	q.choose("check-file", give(t, "hut.txt", file))
	q.Sees("Sound: every signature is good")
	q.Sees("No fingerprint was compared.")
	q.Type("Fingerprint on the sheet, if you have it", "4Q7K2M")
	q.Tap("Compare the fingerprint")
	q.Sees("a fingerprint has 26 signs, this one has 6")
	q.Axe()
	typed := strings.NewReplacer("0", "o", "1", "l").Replace(strings.ToLower(strings.Join(strings.Fields(print), "-")))
	q.Type("Fingerprint on the sheet, if you have it", typed)
	q.Tap("Compare the fingerprint")
	q.Sees("The fingerprint matches: it is that of revision 1 of Invented hut")
	q.Sees("Its results were signed by Olu Brandt (owner)")
	q.Sees("That what was typed is true")
	q.narrow()
	for _, width := range []int64{320, 360} {
		q.Size(width, walkHeight)
		q.Axe()
		q.tallShot("check-sound", width)
	}
	q.Type("Fingerprint on the sheet, if you have it", strings.Repeat("0", 26))
	q.Tap("Compare the fingerprint")
	q.Sees("The fingerprint is not found: no seal in this file has it.")

	changed := bytes.Replace(file, []byte(`"n":"13.`), []byte(`"n":"12.`), 1)
	q.Slow(20) // a check of more than a second says how far it has come
	q.choose("check-file", give(t, "changed.txt", changed))
	q.Sees("of " + decimal(bytes.Count(file, []byte("\ne "))) + " signatures.")
	q.Slow(1)
	q.Sees("Not sound. Faults: ")
	q.Sees("the signature does not match")
	q.Size(320, walkHeight)
	q.narrow()
	q.Size(320, walkHeight)
	q.Axe()
	q.tallShot("check-unsound", 320)
	q.Tap("Back")
	q.Sees("No job on this phone yet.")
	if n := q.recorded(); n != 0 {
		t.Errorf("checking brought %d entries in", n)
	}

	// A damaged file is offered, never taken unasked.
	q.choose("job-file", give(t, "changed.txt", changed))
	q.Sees("The record file is damaged at line ")
	q.Sees("Entries that cannot be trusted: 1.")
	q.narrow()
	q.Size(320, walkHeight)
	q.Axe()
	q.tallShot("offer", 320)
	q.Tap("Bring in nothing")
	q.SeesNot("damaged")
	if n := q.recorded(); n != 0 {
		t.Errorf("%d entries came in unasked", n)
	}
	q.choose("job-file", give(t, "changed.txt", changed))
	q.Size(360, walkHeight)
	all := bytes.Count(file, []byte("\ne "))
	q.Tap("Bring in the " + decimal(all-1) + " entries that are whole")
	q.Sees("Added as a new job: Invented hut.")
	if n := q.recorded(); n != all-1 {
		t.Errorf("%d entries of %d that are whole", n, all-1)
	}
	q.choose("job-file", give(t, "hut.txt", file))
	q.Sees("1 new entries of " + decimal(all))
	q.Sees("what was missing came: Invented hut.")
}

func decimal(n int) string { return strconv.Itoa(n) }

// choose gives a file to a picker. It asks the page for the picker itself: the
// driver's own way loses it after a tap.
func (p *Phone) choose(picker, path string) {
	p.T.Helper()
	path, err := filepath.Abs(path)
	if err != nil {
		p.T.Fatal(err)
	}
	p.Do(chromedp.ActionFunc(func(ctx context.Context) error {
		found, failure, err := runtime.Evaluate(fmt.Sprintf(`document.getElementById(%q)`, picker)).Do(ctx)
		if err != nil {
			return err
		}
		if failure != nil {
			return failure
		}
		return dom.SetFileInputFiles([]string{path}).WithObjectID(found.ObjectID).Do(ctx)
	}))
}

// tallShot is a picture of the whole page at a width.
func (p *Phone) tallShot(name string, width int64) {
	p.T.Helper()
	var height int64
	p.Size(width, walkHeight)
	p.frame()
	p.Eval(`document.documentElement.scrollHeight`, &height)
	p.Size(width, height)
	p.frame()
	p.Shot(fmt.Sprintf("%s-%d", name, width))
	p.Size(width, walkHeight)
}
