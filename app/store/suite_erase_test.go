package store

import (
	"testing"
	"time"

	"lugmark/core/job"
)

func eraseOne(t *testing.T, one, two Store) {
	name, other, photo := blob("text/plain", "Ines Varga"), blob("text/plain", "a note"), blob("image/jpeg", "a photo")
	event := signed("j1", "s1", 1, `{"names":"all three"}`)
	act := job.Act{Job: "j1", Events: []job.Signed{event}, Blobs: []job.Blob{name, other, photo}, Summary: []byte("line")}
	heard := make(chan string, 10)
	defer two.Watch(func(id string) { heard <- id })()
	must(t, one.Keep(act))
	must(t, one.Keep(job.Act{Job: "j2", Blobs: []job.Blob{name}}))
	must(t, one.Erase("j1", name.Sum, photo.Sum, other.Sum[:10]))
	for n := range 3 { // of two acts, and of what was erased
		select {
		case <-heard:
		case <-time.After(5 * time.Second):
			t.Fatalf("the other tab heard %d times", n)
		}
	}
	for which, tab := range map[string]Store{"this tab": one, "the other tab": two} {
		events, texts, err := tab.Job("j1")
		must(t, err)
		if len(events) != 1 || string(events[0].Raw) != string(event.Raw) || len(texts) != 1 || texts[0].Sum != other.Sum {
			t.Errorf("%s: got %d events and texts %+v; want the event and the other text", which, len(events), texts)
		}
		for _, b := range []job.Blob{name, photo} {
			if _, there, err := tab.Blob("j1", b.Sum); there || err != nil {
				t.Errorf("%s: %s is there: %v, %v", which, b.Data, there, err)
			}
		}
		if _, there, err := tab.Blob("j2", name.Sum); !there || err != nil {
			t.Errorf("%s: the blob of another job is gone too, %v", which, err)
		}
	}
	must(t, one.Erase("nobody", name.Sum))
	must(t, one.Keep(act)) // a file brings it again
	if _, there, err := two.Blob("j1", photo.Sum); !there || err != nil {
		t.Errorf("kept once more it is not there, %v", err)
	}
}
