package e2e

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// cameraFile writes an invented photo of 4000 × 3000 pixels as a phone held
// upright writes it: lying on its side, with the note how to turn it, and with
// the place where it was taken. The seed makes each another one.
func cameraFile(t *testing.T, name string, seed int) string {
	t.Helper()
	picture := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	for y := range 3000 {
		for x := range 4000 {
			c := color.RGBA{uint8(x >> 4), uint8(y>>4 + seed), uint8((x*y + seed) >> 9), 255}
			if x < 2000 && y < 1500 { // upright, this corner is at the top right
				c = color.RGBA{230, 30, 20, 255}
			}
			picture.SetRGBA(x, y, c)
		}
	}
	var made bytes.Buffer
	if err := jpeg.Encode(&made, picture, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	file := append([]byte{0xFF, 0xD8}, exif()...)
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, append(file, made.Bytes()[2:]...), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// exif is the segment of a camera: turn a quarter to the right (orientation 6),
// an invented maker, and 1° 2′ 3″ north as the place; from: TIFF 6.0 and CIPA
// DC-008, both big-endian.
func exif() []byte {
	var b bytes.Buffer
	put := func(values ...any) {
		for _, v := range values {
			binary.Write(&b, binary.BigEndian, v)
		}
	}
	const maker = "Invented camera\x00"
	put([]byte("MM"), uint16(42), uint32(8))
	put(uint16(3),
		uint16(0x010F), uint16(2), uint32(len(maker)), uint32(50),
		uint16(0x0112), uint16(3), uint32(1), uint16(6), uint16(0),
		uint16(0x8825), uint16(4), uint32(1), uint32(50+len(maker)))
	put(uint32(0), []byte(maker))
	at := uint32(b.Len())
	put(uint16(2),
		uint16(1), uint16(2), uint32(2), []byte("N\x00\x00\x00"),
		uint16(2), uint16(5), uint32(3), at+2+2*12+4)
	put(uint32(0), uint32(1), uint32(1), uint32(2), uint32(1), uint32(3), uint32(1))
	body := append([]byte("Exif\x00\x00"), b.Bytes()...)
	return append([]byte{0xFF, 0xE1, byte((len(body) + 2) >> 8), byte(len(body) + 2)}, body...)
}

// photo gives a file to the page as if it had been taken with the camera.
func (p *Phone) photo(part, field, path string) {
	p.T.Helper()
	input := fmt.Sprintf(`document.getElementById("take-%s-%s")`, part, field)
	p.Until("a photo can be taken", input)
	p.Do(chromedp.ActionFunc(func(ctx context.Context) error {
		found, _, err := runtime.Evaluate(input).Do(ctx)
		if err != nil {
			return err
		}
		return dom.SetFileInputFiles([]string{path}).WithObjectID(found.ObjectID).Do(ctx)
	}))
}

// shownPhotos scrolls to the photos of a page, waits until they are painted, and
// counts them.
func (p *Phone) shownPhotos() (n int) {
	p.T.Helper()
	p.Until("there are frames for photos", `document.querySelector("img[data-photo]")`)
	p.Eval(`document.querySelector("img[data-photo]").scrollIntoView({block: "center"})`, nil)
	p.Until("the photos are painted", `[...document.querySelectorAll("img[data-photo]")].every(i => i.src && i.complete && i.naturalWidth > 0)`)
	p.Eval(`document.querySelectorAll("img[data-photo]").length`, &n)
	return n
}

// aPhoto is how a JPEG begins.
const aPhoto = "\xff\xd8\xff"

// blobLine is a blob of a record file.
var blobLine = regexp.MustCompile(`(?m)^b ([0-9a-f]{64}) (\S+)$`)

// full makes the browser say how much of its room is used [%].
func (p *Phone) full(percent int) {
	p.T.Helper()
	p.Eval(fmt.Sprintf(`navigator.storage.estimate = () => Promise.resolve({usage: %d, quota: 100}); 0`, percent), nil)
}

// blobsOf are the blobs in a record file that hold some bytes.
func blobsOf(t *testing.T, file, holds string) (out [][]byte) {
	t.Helper()
	for _, m := range blobLine.FindAllStringSubmatch(file, -1) {
		data, err := base64.StdEncoding.DecodeString(m[2])
		if err != nil {
			t.Fatal(err)
		}
		if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) != m[1] {
			t.Errorf("blob %s is %x", m[1], sum)
		}
		if bytes.Contains(data, []byte(holds)) {
			out = append(out, data)
		}
	}
	return out
}

// A photo is taken in upright, small and without its place; what was shown as
// kept survives a kill; a record file carries it to another phone; erased, it is
// gone and the record still checks.
func TestPhotos(t *testing.T) {
	first, second := cameraFile(t, "first.jpg", 0), cameraFile(t, "second.jpg", 1)
	server := Serve(t)
	browser := Launch(t)
	p := OpenIn(t, browser, server.URL+"/", Before(catchFile))
	p.Size(320, 640)
	p.Tap("Sample jobs")
	p.Sees("The sample jobs are here")
	at := p.jobs()["Invented hut"]

	p.visit(at + "/part/b1")
	p.Sees("Take a photo")
	began := time.Now()
	p.photo("b1", "", first)
	p.Sees("photo kept")
	t.Logf("12 megapixels taken in and kept in %v", time.Since(began).Round(time.Millisecond))
	p.photo("b1", "", first)
	p.Sees("This photo is here already")
	if n := p.shownPhotos(); n != 1 {
		t.Errorf("%d photos of block 1, want 1", n)
	}
	p.visit(at + "/part/b2")
	p.photo("b2", "", first)
	p.Sees("The very same photo stands at block 1 already.")
	p.Tap("Do not keep it")
	note := filepath.Join(t.TempDir(), "note.jpg")
	if err := os.WriteFile(note, []byte("not a picture"), 0o644); err != nil {
		t.Fatal(err)
	}
	p.photo("b2", "", note)
	p.Sees("cannot show that file as a picture")
	p.visit(at + "/enter/bank/receive")
	p.full(96)
	p.photo("bank", "arrival-photo", second)
	p.Sees("more than 95 % of the room for Lugmark is used")
	p.full(85)
	p.photo("bank", "arrival-photo", second)
	p.Sees("photo kept")
	p.Sees("More than 80 % of the room for Lugmark is used")
	p.console.complain(t)

	browser.Kill()
	browser = Relaunch(t, browser)
	p = OpenIn(t, browser, server.URL+at+"/photos", Before(catchFile))
	p.Size(320, 640)
	if n := p.shownPhotos(); n != 2 {
		t.Fatalf("%d photos after the kill, want 2", n)
	}
	p.looks("photos")
	p.visit(at + "/part/b1")
	p.shownPhotos()
	p.looks("part")
	p.Eval(`document.querySelector("ul.tiles a").click()`, nil)
	p.Sees("Hash (SHA-256)")
	p.shownPhotos()
	var red bool
	p.Eval(`(async () => {
		const img = document.querySelector("img[data-photo]"), w = img.naturalWidth, h = img.naturalHeight;
		const c = new OffscreenCanvas(w, h).getContext("2d");
		c.drawImage(img, 0, 0);
		const [r, g, b] = c.getImageData(w * 3 / 4, h / 4, 1, 1).data;
		return w === 1200 && h === 1600 && r > 180 && g < 80 && b < 80;
	})()`, &red)
	if !red {
		t.Error("the photo is not upright, or not 1200 × 1600 pixels")
	}
	p.looks("photo")

	saved := p.save(at)
	photos := blobsOf(t, saved, aPhoto)
	if len(photos) != 2 {
		t.Fatalf("%d photos in the file, want 2", len(photos))
	}
	for _, data := range photos {
		size, err := jpeg.DecodeConfig(bytes.NewReader(data))
		if err != nil || max(size.Width, size.Height) != 1600 {
			t.Errorf("%v, %v", size, err)
		}
		for _, secret := range []string{"Exif", "GPS", "MM\x00\x2a", "Invented camera"} {
			if bytes.Contains(data, []byte(secret)) {
				t.Errorf("the photo still tells %q", secret)
			}
		}
	}
	p.Eval(`window.offered = ""`, nil)
	p.Tap("Save it without photos")
	p.Until("a file is offered", `window.offered`)
	var without string
	p.Eval(`window.offered`, &without)
	if n := len(blobsOf(t, without, aPhoto)); n != 0 || strings.Count(without, "\ne ") != strings.Count(saved, "\ne ") {
		t.Errorf("without photos: %d photos, %d events; want 0 and %d", n, strings.Count(without, "\ne "), strings.Count(saved, "\ne "))
	}
	t.Logf("the record: %d bytes with photos, %d without", len(saved), len(without))
	p.onAnotherPhone(t, server, at, saved, without)
	p.erases(t, at)
}

// onAnotherPhone opens first the file without photos, then the one with them.
func (p *Phone) onAnotherPhone(t *testing.T, server *Server, at, with, without string) {
	t.Helper()
	other := OpenIn(t, Launch(t), server.URL+"/", Before(catchFile))
	other.Size(360, 740)
	for _, step := range []struct{ text, sees string }{{without, "The record was brought in"}, {with, "Missing photos that came with it: 2."}} {
		path := filepath.Join(t.TempDir(), "record.txt")
		if err := os.WriteFile(path, []byte(step.text), 0o644); err != nil {
			t.Fatal(err)
		}
		other.visit("/")
		other.Do(chromedp.SetUploadFiles("#job-file", []string{path}, chromedp.ByQuery))
		other.Sees(step.sees)
		if step.text == without {
			other.visit(at + "/photos")
			other.Sees("Not on this phone")
			other.looks("photos-absent")
		}
	}
	other.visit(at + "/photos")
	if n := other.shownPhotos(); n != 2 {
		t.Errorf("%d photos on the other phone, want 2", n)
	}
	other.visit(at + "/handover")
	var early int
	other.Eval(`document.querySelectorAll("img[data-photo][src]").length`, &early)
	if early != 0 {
		t.Errorf("%d photos were read before they were on the screen", early)
	}
	other.Eval(`window.print = () => { window.printed = [...document.querySelectorAll(".sheet img")].filter(i => i.naturalWidth > 0).length; }; 0`, nil)
	other.Tap("Print, or save as PDF")
	other.Until("every photo is there before it prints", `window.printed === 2`)
	other.Eval(`document.querySelector(".sheet .tiles").scrollIntoView()`, nil)
	other.shownPhotos()
	other.looks("annex")
	if again := other.save(at); again != with {
		t.Errorf("the other phone saves %d bytes, the first saved %d", len(again), len(with))
	}
}

// erases takes a photo and a name off the phone, and looks that both are gone
// from the file that is saved then, with every event still in it.
func (p *Phone) erases(t *testing.T, at string) {
	t.Helper()
	p.Front()
	p.visit(at + "/part/b1")
	p.Eval(`document.querySelector("ul.tiles a").click()`, nil)
	p.Sees("Hash (SHA-256)")
	p.Tap("Erase from this phone")
	p.Sees("Nobody can bring it back here.")
	p.looks("erase")
	p.Tap("Erase for good")
	p.Until("it is erased, or asked who does it", `/Erased from this phone|Who are you/.test(document.body.innerText)`)
	if p.Can("I am Ines Varga") { // the browser may have been killed before it wrote that down
		p.Tap("I am Ines Varga")
	}
	p.Sees("Erased from this phone: Photo.")
	p.visit(at + "/personal")
	p.Sees("Invented hut")
	p.looks("personal")
	var name string
	p.Eval(`[...document.querySelectorAll("main button")].map(b => b.getAttribute("aria-label")).find(l => l && l.includes("Invented hut"))`, &name)
	p.Tap(name)
	p.Tap("Erase for good")
	p.Sees("Erased from this phone: name.")
	p.Sees("(erased)")
	p.visit("/")
	p.Until("the list says so too", `[...document.querySelectorAll("a.job h2")].some(h => h.textContent === "(erased)")`)
	p.visit(at + "/handover")
	p.Sees("Your battery at (erased)")
	saved := p.save(at)
	if n := len(blobsOf(t, saved, aPhoto)); n != 1 {
		t.Errorf("%d photos in the file, want 1", n)
	}
	if len(blobsOf(t, saved, "Invented hut")) > 0 {
		t.Error("the name is still in the file")
	}
	path := filepath.Join(t.TempDir(), "erased.txt")
	if err := os.WriteFile(path, []byte(saved), 0o644); err != nil {
		t.Fatal(err)
	}
	fresh := OpenIn(t, Launch(t), p.origin()+"/")
	fresh.Do(chromedp.SetUploadFiles("#job-file", []string{path}, chromedp.ByQuery))
	fresh.Sees("The record was brought in") // every signature and every chain was checked
}

func (p *Phone) origin() (origin string) {
	p.T.Helper()
	p.Eval(`location.origin`, &origin)
	return origin
}

// looks runs what every screen has to stand, on narrow phones and in each
// theme, and takes its picture.
func (p *Phone) looks(name string) {
	p.T.Helper()
	p.structure()
	p.targets()
	for _, width := range []int64{320, 360} {
		p.Size(width, 640)
		p.frame()
		p.fits(name)
		for i, theme := range themes {
			p.Eval(`document.documentElement.dataset.theme = `+quote(theme), nil)
			p.frame()
			p.rules(theme, i == 0)
			p.Shot("photos/" + name + "-" + theme + map[int64]string{320: "-320", 360: "-360"}[width])
		}
	}
	p.Eval(`document.documentElement.dataset.theme = "light"`, nil)
	p.Size(320, 640)
}
