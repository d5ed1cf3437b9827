package screen

import (
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// A photo is made small by the browser, which has the decoders: what the camera
// wrote never comes into this program, and what does come has no more than the
// picture in it. 1600 pixels show the print on a label; our choice.
const (
	photoSide    = 1600 // [px], the longer side
	photoQuality = 0.8
	thumbSide    = 480 // of a small picture on screen and paper [px]
	thumbQuality = 0.75
)

// errNoPicture means that the browser cannot show this file as a picture.
var errNoPicture = errors.New("not a picture that this browser can show")

// shrink makes a JPEG of a picture of any kind that the browser can show, as it
// is held upright, at most side pixels long. It waits: call it from a goroutine.
func shrink(file app.Value, side int, quality float64) (blob app.Value, err error) {
	defer func() {
		if fault := recover(); fault != nil { // something that browsers promise was not there
			app.Logf("lugmark: shrink: %v", fault)
			blob, err = nil, errNoPicture
		}
	}()
	picture, width, height, release, err := decode(file)
	if err != nil {
		return nil, err
	}
	defer release()
	if width == 0 || height == 0 {
		return nil, errNoPicture
	}
	width, height = within(width, height, side)
	canvas := app.Window().Get("OffscreenCanvas").New(width, height)
	c := canvas.Call("getContext", "2d")
	c.Set("fillStyle", "#fff") // under what can be seen through
	c.Call("fillRect", 0, 0, width, height)
	c.Set("imageSmoothingQuality", "high")
	c.Call("drawImage", picture, 0, 0, width, height)
	return settled(canvas.Call("convertToBlob", map[string]any{"type": "image/jpeg", "quality": quality}))
}

// decode lets the browser read a picture, turned upright.
func decode(file app.Value) (picture app.Value, width, height int, release func(), err error) {
	made, err := settled(app.Window().Call("createImageBitmap", file, map[string]any{"imageOrientation": "from-image"}))
	if err == nil {
		return made, made.Get("width").Int(), made.Get("height").Int(), func() { made.Call("close") }, nil
	}
	// Some browsers do not know the wish above, and some show more kinds of
	// pictures than they make bitmaps of. An image element is upright by itself.
	url := app.Window().Get("URL").Call("createObjectURL", file)
	release = func() { app.Window().Get("URL").Call("revokeObjectURL", url) }
	img := app.Window().Get("document").Call("createElement", "img")
	img.Set("src", url)
	if _, err := settled(img.Call("decode")); err != nil {
		release()
		return nil, 0, 0, nil, errNoPicture
	}
	return img, img.Get("naturalWidth").Int(), img.Get("naturalHeight").Int(), release, nil
}

// within makes a size not longer than side on its longer side, and never larger
// than it is; no side becomes 0.
func within(width, height, side int) (int, int) {
	long := max(width, height)
	if long <= side {
		return width, height
	}
	scaled := func(n int) int { return max(1, (n*side+long/2)/long) }
	return scaled(width), scaled(height)
}

// settled waits for a promise of the browser; only a goroutine may wait.
func settled(promise app.Value) (app.Value, error) {
	type answer struct {
		v   app.Value
		err error
	}
	answers := make(chan answer, 1)
	whenSettled(promise, func(v app.Value, err error) { answers <- answer{v, err} })
	a := <-answers
	return a.v, a.err
}

// bytesOf copies the bytes of a browser's blob.
func bytesOf(blob app.Value) ([]byte, error) {
	buffer, err := settled(blob.Call("arrayBuffer"))
	if err != nil {
		return nil, err
	}
	array := app.Window().Get("Uint8Array").New(buffer)
	data := make([]byte, array.Length())
	app.CopyBytesToGo(data, array)
	return data, nil
}

// blobOf makes a browser's blob of bytes.
func blobOf(kind string, data []byte) app.Value {
	array := app.Window().Get("Uint8Array").New(len(data))
	app.CopyBytesToJS(array, data)
	return app.Window().Get("Blob").New([]any{array}, map[string]any{"type": kind})
}
