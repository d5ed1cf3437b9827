package screen

import (
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Photos are large, so a page draws empty frames, and what comes onto the
// screen is read from the store then, and let go when it leaves. A frame on
// paper keeps its picture: printing has no scrolling.
//
// The frames are images with data-photo; the page's own comparison may give a
// frame another photo, so what it shows is compared after each paint.
type gallery struct {
	observer app.Value     // IntersectionObserver, made when first needed
	turns    chan struct{} // two at a time: each is decoded for a moment
}

// lookAtPictures watches every frame on the page that is new or means another
// photo now.
func (r *root) lookAtPictures(doc app.Value) {
	list := doc.Call("querySelectorAll", "img[data-photo]")
	n := list.Get("length").Int()
	if n == 0 {
		return
	}
	if r.gallery.observer == nil {
		r.gallery.turns = make(chan struct{}, 2)
		r.gallery.observer = app.Window().Get("IntersectionObserver").New(app.FuncOf(r.onInView), map[string]any{"rootMargin": "200px"})
	}
	for i := range n {
		el := list.Call("item", i)
		data := el.Get("dataset")
		if data.Get("photo").Equal(data.Get("watched")) {
			continue
		}
		data.Set("watched", data.Get("photo"))
		r.empty(el)
		r.gallery.observer.Call("unobserve", el) // observing again asks at once
		r.gallery.observer.Call("observe", el)
	}
}

// onInView is told which frames have come onto the screen, and which have left.
func (r *root) onInView(_ app.Value, args []app.Value) any {
	for i := range args[0].Length() {
		entry := args[0].Index(i)
		el := entry.Get("target")
		switch {
		case entry.Get("isIntersecting").Bool():
			r.async(func() { r.fill(el) })
		case el.Get("dataset").Get("stays").IsUndefined():
			r.empty(el)
		}
	}
	return nil
}

// empty lets the picture of a frame go.
func (r *root) empty(el app.Value) {
	el.Get("dataset").Delete("shown")
	el.Call("removeAttribute", "src")
}

// fill reads the photo of a frame and shows it. It waits.
func (r *root) fill(el app.Value) {
	data := el.Get("dataset")
	sum, j := data.Get("photo").String(), r.job
	if j == nil || data.Get("shown").Truthy() {
		return
	}
	data.Set("shown", sum) // before the wait, so that nobody begins it twice
	r.gallery.turns <- struct{}{}
	defer func() { <-r.gallery.turns }()
	if !el.Get("isConnected").Bool() || !data.Get("shown").Truthy() || data.Get("photo").String() != sum {
		return // it has left again
	}
	b, there, err := r.device.Store.Blob(j.id, sum)
	if err != nil || !there {
		if err != nil {
			app.Logf("lugmark: photo: %v", err)
		}
		r.dispatch(func(app.Context) {
			if j.absent == nil {
				j.absent = map[string]bool{}
			}
			j.absent[sum] = true
		})
		return
	}
	picture := blobOf(b.Type, b.Data)
	if data.Get("whole").IsUndefined() {
		if small, err := shrink(picture, thumbSide, thumbQuality); err == nil {
			picture = small
		}
	}
	if data.Get("photo").String() != sum || !data.Get("shown").Truthy() {
		return
	}
	urls := app.Window().Get("URL")
	url := urls.Call("createObjectURL", picture)
	el.Set("src", url)
	settled(el.Call("decode"))
	urls.Call("revokeObjectURL", url) // the frame has it now
}

// fillPaper fills every frame that will be printed, wherever it is. It waits.
func (r *root) fillPaper() {
	list := app.Window().Get("document").Call("querySelectorAll", "img[data-stays]")
	for i := range list.Get("length").Int() {
		r.fill(list.Call("item", i))
	}
	for range 100 { // some were being filled already
		if app.Window().Get("document").Call("querySelector", "img[data-stays]:not([src])").IsNull() {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// print prints the page when every photo on it is there.
func (r *root) print() {
	r.async(func() {
		r.fillPaper()
		app.Window().Call("print")
	})
}

// frameOf is the empty frame of a photo.
func frameOf(sum, alt string) app.HTMLImg {
	return app.Img().Class("photo").DataSet("photo", sum).Alt(alt)
}
