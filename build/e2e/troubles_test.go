package e2e

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
)

// switchable makes a page whose storage and key fail when a test says so, as
// those of a phone do that is full or worn.
const switchable = `(() => {
	const add = IDBObjectStore.prototype.add;
	IDBObjectStore.prototype.add = function (...args) {
		if (window.noRoom) throw new DOMException("no room", "QuotaExceededError");
		return add.apply(this, args);
	};
	const sign = SubtleCrypto.prototype.sign;
	SubtleCrypto.prototype.sign = function (...args) {
		return window.noKey ? Promise.reject(new DOMException("no key", "InvalidAccessError")) : sign.apply(this, args);
	};
})();`

// What the phone cannot keep stays on the screen, says why, and is kept later.
func TestWhatThePhoneCannotKeepStaysOnTheScreen(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	job := w.address()
	p := &Walker{Browser: shared}
	p.Phone = NewTab(t, shared, Before(switchable))
	p.Size(walkWidth, walkHeight)
	p.Allow("lugmark: keep: store: ")
	p.Go(job + "/read/arrival-voltage/b1")
	p.At("Block 1")
	before := p.recorded()
	for _, c := range []struct{ broken, says string }{
		{"noRoom", "It was not kept: this phone has no room left."},
		{"noKey", "It was not kept: the signing key of this phone did not answer."},
	} {
		p.Eval(c.broken+` = true`, nil)
		p.Type("Voltage on arrival", "13.21")
		p.On("Keep, next")
		p.Sees(c.says)
		p.Sees("Your text is still on the screen.")
		p.Until("the digits are still there", `document.getElementById("value").value === "13.21"`)
		p.untouched(before, c.broken)
		p.Shot("trouble-" + c.broken)
		p.Eval(c.broken+` = false`, nil)
	}
	p.On("Keep, next")
	p.Sees("Block 1: 13.21 V kept.")
	p.untouched(before+1, "mending it")
}

func TestABrowserThatStoresNothingSaysSo(t *testing.T) {
	p := NewTab(t, shared, Before(`IDBFactory.prototype.open = () => { throw new DOMException("no", "SecurityError"); };`))
	p.Size(walkWidth, walkHeight)
	p.Go(Serve(t).URL + "/")
	p.Sees("This browser lets Lugmark store nothing, perhaps because it is a private window.")
	p.SeesNot("New job")
}

// A phone whose key is gone gets another, says so once, and everything that the
// old one signed can still be checked.
func TestALostKeyIsSaidAndReplaced(t *testing.T) {
	browser := Launch(t)
	url := Serve(t).URL + "/"
	noMirror := Before(`delete Navigator.prototype.storageBuckets;`)
	w := &Walker{Browser: browser}
	w.Phone = NewTab(t, browser, noMirror, Before(catchFile))
	w.Size(walkWidth, walkHeight)
	w.Go(url)
	w.newJob()
	job := w.path()
	w.Go(w.address() + "/read/arrival-voltage/b1")
	w.Reading("Block 1", "Voltage on arrival", "13.21", "V")
	w.SeesNot("signing key of this phone was gone")
	w.Eval(`new Promise((done, failed) => {
		const open = indexedDB.open("lugmark");
		open.onerror = () => failed(open.error);
		open.onsuccess = () => {
			const t = open.result.transaction("keys", "readwrite");
			t.objectStore("keys").delete("device");
			t.oncomplete = () => { open.result.close(); done(); };
		};
	})`, nil)
	w.Go(url)
	w.Sees("The signing key of this phone was gone; a new one was made.")
	w.visit(job + "/read/arrival-voltage/b2")
	w.Reading("Block 2", "Voltage on arrival", "13.22", "V")
	saved := w.save(job)
	path := filepath.Join(t.TempDir(), "two-keys.txt")
	if err := os.WriteFile(path, []byte(saved), 0o644); err != nil {
		t.Fatal(err)
	}
	w.Go(url)
	w.SeesNot("signing key of this phone was gone")
	other := NewTab(t, shared)
	other.Size(walkWidth, walkHeight)
	other.Go(Serve(t).URL + "/")
	other.Do(chromedp.SetUploadFiles("#job-file", []string{path}, chromedp.ByQuery))
	other.Sees("The record was brought in")
}

// Two phones with one copied storage have the same key and the same job. Each
// goes on in a stream of its own, so their records come together whole.
func TestACopiedProfileForksNothing(t *testing.T) {
	url := Serve(t).URL + "/"
	first := Launch(t)
	w := NewWalker(t, first, url, 0)
	w.newJob()
	job := w.path()
	w.Go(w.address() + "/read/arrival-voltage/b1")
	w.Reading("Block 1", "Voltage on arrival", "13.21", "V")
	w.Load("about:blank")
	first.Close()
	copied := filepath.Join(t.TempDir(), "copied")
	if err := os.CopyFS(copied, os.DirFS(first.Profile)); err != nil {
		t.Fatal(err)
	}
	second, err := LaunchAt(copied)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(second.Close)

	var saved [2]string
	var phones [2]*Walker
	for i, b := range []*Browser{Relaunch(t, first), second} {
		p := &Walker{Browser: b}
		p.Phone = NewTab(t, b, Before(catchFile))
		p.Size(walkWidth, walkHeight)
		p.Go(url[:len(url)-1] + job + "/read/arrival-voltage/b2")
		p.Reading("Block 2", "Voltage on arrival", []string{"13.22", "13.32"}[i], "V")
		saved[i], phones[i] = p.save(job), p
	}
	for i, p := range phones {
		path := filepath.Join(t.TempDir(), "other.txt")
		if err := os.WriteFile(path, []byte(saved[1-i]), 0o644); err != nil {
			t.Fatal(err)
		}
		p.Go(url)
		p.Sees("Sample jobs")
		p.Do(chromedp.SetUploadFiles("#job-file", []string{path}, chromedp.ByQuery))
		p.Sees("The record was brought in: 1 new")
		p.visit(job + "/part/b2")
		p.Sees("Two values: Voltage on arrival")
		p.Sees("13.22 V")
		p.Sees("13.32 V")
	}
}
