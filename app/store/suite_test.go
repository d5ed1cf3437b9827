package store

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"lugmark/core/job"
)

// signed makes an event as a store sees it: bytes and a signature it never reads.
func signed(id, stream string, seq int, raw string) job.Signed {
	return job.Signed{Job: id, Stream: stream, Seq: seq, Raw: []byte(raw), Sig: bytes.Repeat([]byte{byte(seq)}, 64)}
}

func blob(kind, data string) job.Blob {
	sum := sha256.Sum256([]byte(data))
	return job.Blob{Sum: hex.EncodeToString(sum[:]), Type: kind, Data: []byte(data)}
}

// conform is what every store must do. open returns two tabs on one new store.
func conform(t *testing.T, open func(t *testing.T) (one, two Store)) {
	for name, test := range map[string]func(t *testing.T, one, two Store){
		"an act comes back byte for byte":           actComesBack,
		"events come by stream, then number":        eventsInOrder,
		"the same event again is no error":          sameAgain,
		"another event in the place keeps nothing":  forkKeepsNothing,
		"an act with one bad part keeps nothing":    badKeepsNothing,
		"jobs do not mix, and one can be forgotten": forgetOne,
		"drafts":                        drafts,
		"the key is made once":          keyOnce,
		"the other tab hears":           otherTabHears,
		"many writers at once":          manyWriters,
		"a closed tab says so":          closedSaysSo,
		"an unknown job has nothing":    unknownJob,
		"a blob of any type comes back": blobsComeBack,
		"a blob can be erased":          eraseOne,
	} {
		t.Run(name, func(t *testing.T) {
			one, two := open(t)
			defer one.Close()
			defer two.Close()
			test(t, one, two)
		})
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func actComesBack(t *testing.T, one, two Store) {
	raw := `{"v":1,"n":"13.20","x":"Größe \"é\" 漢 𝄞  end"}`
	text := blob("text/plain", "\x00\xff\xfe 16 random bytes, then Ines Varga")
	must(t, one.Keep(job.Act{
		Job:     "j1",
		Events:  []job.Signed{signed("j1", "s1", 1, raw), signed("j1", "s1", 2, `{"second":true}`)},
		Blobs:   []job.Blob{text},
		Summary: []byte("{\"name\":\"Invented jetty\",\n \"kept\":2}"),
	}))
	for name, tab := range map[string]Store{"this tab": one, "the other tab": two} {
		events, texts, err := tab.Job("j1")
		must(t, err)
		if len(events) != 2 || string(events[0].Raw) != raw || events[0].Seq != 1 || events[0].Stream != "s1" || events[0].Job != "j1" {
			t.Errorf("%s: got events %+v", name, events)
		}
		if want := bytes.Repeat([]byte{1}, 64); !bytes.Equal(events[0].Sig, want) {
			t.Errorf("%s: the signature came back as %x", name, events[0].Sig)
		}
		if len(texts) != 1 || texts[0].Sum != text.Sum || texts[0].Type != text.Type || !bytes.Equal(texts[0].Data, text.Data) {
			t.Errorf("%s: got texts %+v, want %+v", name, texts, text)
		}
		lines, err := tab.Summaries()
		must(t, err)
		if got := string(lines["j1"]); len(lines) != 1 || got != "{\"name\":\"Invented jetty\",\n \"kept\":2}" {
			t.Errorf("%s: got summaries %q", name, lines)
		}
	}
	must(t, one.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", 3, `{}`)}}))
	lines, err := one.Summaries()
	must(t, err)
	if len(lines["j1"]) == 0 {
		t.Error("an act without a summary took the summary away")
	}
}

func eventsInOrder(t *testing.T, one, _ Store) {
	for _, at := range []struct {
		stream string
		seq    int
	}{{"sb", 2}, {"sa", 10}, {"sa", 9}, {"sb", 1}, {"sa", 100}} {
		must(t, one.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", at.stream, at.seq, "{}")}}))
	}
	events, _, err := one.Job("j1")
	must(t, err)
	var got []string
	for _, e := range events {
		got = append(got, fmt.Sprint(e.Stream, e.Seq))
	}
	if want := "sa9 sa10 sa100 sb1 sb2"; strings.Join(got, " ") != want {
		t.Errorf("got %v, want %s", got, want)
	}
}

func sameAgain(t *testing.T, one, two Store) {
	first := signed("j1", "s1", 1, `{"a":1}`)
	must(t, one.Keep(job.Act{Job: "j1", Events: []job.Signed{first}}))
	again := signed("j1", "s1", 1, `{"a":1}`)
	again.Sig = bytes.Repeat([]byte{9}, 64) // some browsers sign the same bytes differently each time
	must(t, two.Keep(job.Act{Job: "j1", Events: []job.Signed{again, signed("j1", "s1", 2, `{"a":2}`)}}))
	events, _, err := one.Job("j1")
	must(t, err)
	if len(events) != 2 || !bytes.Equal(events[0].Sig, first.Sig) {
		t.Errorf("got %d events, first signed %x; want 2, and the first as it was", len(events), events[0].Sig)
	}
}

func forkKeepsNothing(t *testing.T, one, _ Store) {
	must(t, one.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", 1, `{"a":1}`)}, Summary: []byte("old")}))
	must(t, one.PutDraft("j1/d", "typed"))
	err := one.Keep(job.Act{
		Job:     "j1",
		Events:  []job.Signed{signed("j1", "s2", 1, `{}`), signed("j1", "s1", 1, `{"a":2}`)},
		Blobs:   []job.Blob{blob("text/plain", "x")},
		Summary: []byte("new"),
		Draft:   "j1/d",
	})
	if !errors.Is(err, ErrForked) {
		t.Fatalf("got %v, want ErrForked", err)
	}
	nothingNew(t, one)
	err = one.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s3", 1, `{"a":1}`), signed("j1", "s3", 1, `{"a":2}`)}})
	if !errors.Is(err, ErrForked) {
		t.Fatalf("two events for one place in one act: got %v, want ErrForked", err)
	}
	nothingNew(t, one)
}

func nothingNew(t *testing.T, s Store) {
	t.Helper()
	events, texts, err := s.Job("j1")
	must(t, err)
	if len(events) != 1 || string(events[0].Raw) != `{"a":1}` || len(texts) != 0 {
		t.Errorf("after a refused act there are events %v, texts %v", events, texts)
	}
	lines, err := s.Summaries()
	must(t, err)
	if string(lines["j1"]) != "old" {
		t.Errorf("after a refused act the summary is %q", lines["j1"])
	}
	if text, _, err := s.Draft("j1/d"); err != nil || text != "typed" {
		t.Errorf("after a refused act the draft is %q, %v", text, err)
	}
}

func badKeepsNothing(t *testing.T, one, _ Store) {
	good := signed("j1", "s1", 1, `{"a":1}`)
	must(t, one.Keep(job.Act{Job: "j1", Events: []job.Signed{good}, Summary: []byte("old")}))
	must(t, one.PutDraft("j1/d", "typed"))
	wrongSum := blob("text/plain", "x")
	wrongSum.Data = []byte("y")
	unsigned := signed("j1", "s1", 2, "{}")
	unsigned.Sig = nil
	for name, act := range map[string]job.Act{
		"no job":           {Summary: []byte("new")},
		"another job":      {Job: "j1", Events: []job.Signed{signed("j2", "s1", 2, "{}")}},
		"two lines":        {Job: "j1", Events: []job.Signed{signed("j1", "s1", 2, "{\n}")}},
		"not UTF-8":        {Job: "j1", Events: []job.Signed{signed("j1", "s1", 2, "{\xff}")}},
		"number 0":         {Job: "j1", Events: []job.Signed{signed("j1", "s1", 0, "{}")}},
		"unsigned":         {Job: "j1", Events: []job.Signed{unsigned}},
		"space in stream":  {Job: "j1", Events: []job.Signed{signed("j1", "s 1", 2, "{}")}},
		"wrong sum":        {Job: "j1", Events: []job.Signed{signed("j1", "s1", 2, "{}")}, Blobs: []job.Blob{wrongSum}},
		"type with spaces": {Job: "j1", Blobs: []job.Blob{blob("text/plain; charset=x", "x")}},
	} {
		act.Summary, act.Draft = []byte("new"), "j1/d"
		if err := one.Keep(act); err == nil {
			t.Errorf("%s: it was kept", name)
		}
		nothingNew(t, one)
	}
}

func forgetOne(t *testing.T, one, _ Store) {
	for _, id := range []string{"j1", "j10", "j"} {
		must(t, one.Keep(job.Act{Job: id, Events: []job.Signed{signed(id, "s1", 1, "{}")},
			Blobs: []job.Blob{blob("text/plain", "the same in all"), blob("image/png", "ink")}, Summary: []byte(id)}))
		must(t, one.PutDraft(id+"/x", "typed"))
	}
	must(t, one.Forget("j1"))
	for id, want := range map[string]int{"j1": 0, "j10": 1, "j": 1} {
		events, texts, err := one.Job(id)
		must(t, err)
		_, drafted, err := one.Draft(id + "/x")
		must(t, err)
		_, inked, err := one.Blob(id, blob("image/png", "ink").Sum)
		must(t, err)
		if len(events) != want || len(texts) != want || drafted != (want == 1) || inked != (want == 1) {
			t.Errorf("%s: %d events, %d texts, draft %v, ink %v; want %d of each", id, len(events), len(texts), drafted, inked, want)
		}
	}
	lines, err := one.Summaries()
	must(t, err)
	if len(lines) != 2 {
		t.Errorf("got summaries %q, want two", lines)
	}
}

func drafts(t *testing.T, one, two Store) {
	if _, there, err := one.Draft("j1/a"); err != nil || there {
		t.Errorf("a draft that nobody typed: there %v, %v", there, err)
	}
	must(t, one.PutDraft("j1/a", "13."))
	must(t, one.PutDraft("j1/a", "13.2"))
	if text, there, err := two.Draft("j1/a"); text != "13.2" || !there || err != nil {
		t.Errorf("got %q, %v, %v; want the last that was typed", text, there, err)
	}
	must(t, one.PutDraft("j1/b", "x"))
	must(t, one.PutDraft("j1/b", ""))
	if _, there, _ := one.Draft("j1/b"); there {
		t.Error("an emptied draft is still there")
	}
	must(t, one.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", 1, "{}")}, Draft: "j1/a"}))
	if _, there, _ := one.Draft("j1/a"); there {
		t.Error("the draft outlived the act that made it needless")
	}
}

func keyOnce(t *testing.T, one, two Store) {
	keys := make([]Key, 2)
	var both sync.WaitGroup
	for i, tab := range []Store{one, two} {
		both.Go(func() {
			var err error
			if keys[i], err = tab.Key(); err != nil {
				t.Error(err)
			}
		})
	}
	both.Wait()
	if !bytes.Equal(keys[0].PublicDER, keys[1].PublicDER) || keys[0].Soft != keys[1].Soft {
		t.Fatalf("two tabs have keys %x and %x", keys[0].PublicDER, keys[1].PublicDER)
	}
	// RFC 8410, section 10.1: an Ed25519 public key is 44 bytes of DER that begin
	// with 30 2a 30 05 06 03 2b 65 70 03 21 00.
	head, _ := hex.DecodeString("302a300506032b6570032100")
	der := keys[0].PublicDER
	if len(der) != 44 || !bytes.HasPrefix(der, head) {
		t.Fatalf("the public key is %x", der)
	}
	for _, message := range []string{"", "1\n{}", strings.Repeat("x", 20000)} {
		sig, err := keys[1].Sign([]byte(message))
		must(t, err)
		if !ed25519.Verify(ed25519.PublicKey(der[12:]), []byte(message), sig) {
			t.Errorf("the signature of %d bytes does not verify", len(message))
		}
	}
}

func otherTabHears(t *testing.T, one, two Store) {
	heard := make(chan string, 10)
	mine := make(chan string, 10)
	defer two.Watch(func(id string) { heard <- id })()
	defer one.Watch(func(id string) { mine <- id })()
	must(t, one.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", 1, "{}")}}))
	select {
	case id := <-heard:
		if id != "j1" {
			t.Errorf("heard %q", id)
		}
		if events, _, err := two.Job(id); err != nil || len(events) != 1 {
			t.Errorf("when it heard, it found %d events, %v", len(events), err)
		}
	case <-time.After(5 * time.Second):
		t.Fatal("the other tab heard nothing")
	}
	select {
	case id := <-mine:
		t.Errorf("a tab heard of its own act on %s", id)
	case <-time.After(50 * time.Millisecond):
	}
}

func manyWriters(t *testing.T, one, two Store) {
	const writers, each = 4, 10
	var all sync.WaitGroup
	for w := range writers {
		tab := []Store{one, two}[w%2]
		all.Go(func() {
			for n := range each {
				stream := fmt.Sprint("s", w)
				err := tab.Keep(job.Act{Job: "j1", Events: []job.Signed{signed("j1", stream, n+1, "{}")}, Summary: []byte(stream)})
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	events, _, err := one.Job("j1")
	must(t, err)
	if len(events) != writers*each {
		t.Errorf("got %d events, want %d", len(events), writers*each)
	}
}

func closedSaysSo(t *testing.T, one, two Store) {
	one.Close()
	one.Close() // twice is no harm
	_, _, readErr := one.Job("j1")
	_, keyErr := one.Key()
	for name, err := range map[string]error{
		"Keep":     one.Keep(job.Act{Job: "j1", Summary: []byte("x")}),
		"PutDraft": one.PutDraft("a", "b"),
		"Forget":   one.Forget("j1"),
		"Erase":    one.Erase("j1", "x"),
		"Job":      readErr,
		"Key":      keyErr,
	} {
		if !errors.Is(err, ErrClosed) {
			t.Errorf("%s after Close: %v, want ErrClosed", name, err)
		}
	}
	must(t, two.PutDraft("a", "b"))
}

func unknownJob(t *testing.T, one, _ Store) {
	events, texts, err := one.Job("nobody")
	if len(events)+len(texts) != 0 || err != nil {
		t.Errorf("got %v, %v, %v", events, texts, err)
	}
	lines, err := one.Summaries()
	if len(lines) != 0 || err != nil {
		t.Errorf("got %v, %v", lines, err)
	}
	if _, there, err := one.Blob("nobody", "x"); there || err != nil {
		t.Errorf("got a blob of nobody, %v", err)
	}
	must(t, one.Forget("nobody"))
}

func blobsComeBack(t *testing.T, one, two Store) {
	every := make([]byte, 256)
	for i := range every {
		every[i] = byte(i)
	}
	blobs := []job.Blob{blob("text/plain", "a text"), blob("image/svg+xml", "<svg/>"), blob("image/png", string(every))}
	must(t, one.Keep(job.Act{Job: "j1", Blobs: blobs}))
	must(t, one.Keep(job.Act{Job: "j1", Blobs: blobs})) // the same again
	for _, want := range blobs {
		got, there, err := two.Blob("j1", want.Sum)
		if err != nil || !there || got.Sum != want.Sum || got.Type != want.Type || !bytes.Equal(got.Data, want.Data) {
			t.Errorf("%s: got %+v, %v, %v", want.Type, got, there, err)
		}
	}
	if _, texts, _ := one.Job("j1"); len(texts) != 1 {
		t.Errorf("the job came with %d texts, want only the text", len(texts))
	}
}
