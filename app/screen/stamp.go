package screen

import (
	"crypto/rand"
	"time"

	"github.com/google/uuid"
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/job"
)

// newStamp names and times one event.
func newStamp() job.Stamp {
	id, err := uuid.NewV7()
	if err != nil {
		panic("screen: no random bytes: " + err.Error())
	}
	return job.Stamp{Now: now(), ID: id.String()}
}

func salt() (s [job.Salt]byte) {
	rand.Read(s[:])
	return s
}

// now is the present with the offset of the place. A Go program in a browser
// fixes its own offset at the start, so the browser is asked each time.
func now() time.Time {
	t := time.Now()
	if date := app.Window().Get("Date"); date.Truthy() {
		west := date.New().Call("getTimezoneOffset").Int()
		return t.In(time.FixedZone("", -west*60))
	}
	return t
}
