package job

import (
	"bufio"
	"bytes"
	"encoding/hex"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// The files under testdata/events were written once, by another program in
// another language, and their hashes by sha256sum. They never change: what was
// once kept must be read for ever.
func golden(t testing.TB, name string) []byte {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("testdata", "events", name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

func goldenHashes(t testing.TB) map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "events", "hashes.txt"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out := map[string]string{}
	for lines := bufio.NewScanner(f); lines.Scan(); {
		hash, name, _ := strings.Cut(lines.Text(), " ")
		out[name] = hash
	}
	return out
}

func TestEveryGoldenEventIsReadAndWrittenTheSame(t *testing.T) {
	hashes := goldenHashes(t)
	files, _ := filepath.Glob(filepath.Join("testdata", "events", "*.json"))
	if len(files) != len(hashes) {
		t.Fatalf("%d files, %d hashes", len(files), len(hashes))
	}
	types := map[string]bool{}
	for name, want := range hashes {
		raw := golden(t, name)
		e, err := Decode(raw)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		types[e.Type] = e.Known
		if got := hex.EncodeToString(e.Hash[:]); got != want {
			t.Errorf("%s: hash %s, sha256sum says %s", name, got, want)
		}
		again, err := Encode(e)
		if err != nil || !bytes.Equal(again, raw) {
			t.Errorf("%s: written again as\n%s, error %v; was\n%s", name, again, err, raw)
		}
	}
	for kind := range bodies {
		if !types[kind] {
			t.Errorf("no golden event of type %s", kind)
		}
	}
	for _, kind := range []string{"grant/1", "set/2"} {
		if known, there := types[kind]; known || !there {
			t.Errorf("%s must be there and not known", kind)
		}
	}
}

// Read off the files by eye.
func TestGoldenEventsSayWhatIsWrittenInThem(t *testing.T) {
	e, err := Decode(golden(t, "set-quantity-full"))
	if err != nil {
		t.Fatal(err)
	}
	want := Value{Kind: KindQuantity, Number: "-0.10", Unit: "V", Source: "file",
		When: "2026-11-25T07:00:00Z", Moving: true, Odd: true}
	if got := e.Body.(Set).Value; !reflect.DeepEqual(got, want) {
		t.Errorf("quantity: %+v", got)
	}
	if e.Field != "v1/b3/rest-voltage" || e.Seq != 4 || e.Lam != 44 || e.By != "p1" || len(e.Sup) != 1 ||
		e.At != "2026-11-25T08:05:39.123+01:00" || e.Stream != "k3fqz7mvb2ra5xte" {
		t.Errorf("envelope: %+v", e)
	}
	e, _ = Decode(golden(t, "set-text"))
	if got := e.Body.(Set).Value.Text; got != "IX-100 \"A\"\\7\tü\x01" {
		t.Errorf("text: %q", got)
	}
	e, _ = Decode(golden(t, "set-layout"))
	if got := string(e.Body.(Set).Value.Layout); got != `{"series":2,"parallel":2,"join":"strings","takeoff":"one-end","place":["b1","b2","b3","b4"]}` {
		t.Errorf("layout: %s", got)
	}
	e, _ = Decode(golden(t, "set-override"))
	if got := e.Body.(Set).Value; got.Who != "p2" || len(got.Over) != 2 || got.X.Len != 60 {
		t.Errorf("override: %+v", got)
	}
	e, _ = Decode(golden(t, "job"))
	if e.Open == nil || !e.Open.Soft || len(e.Open.After) != 1 || e.Open.After[0].Seq != 17 || e.Prev != "" {
		t.Errorf("open: %+v", e.Open)
	}
	e, _ = Decode(golden(t, "choose"))
	if got := e.Body.(Choose); got.Of != e.Sup[0] || got.Value.Number != "13.280" || got.Value.Meter != "m1" {
		t.Errorf("choose: %+v", got)
	}
	e, _ = Decode(golden(t, "newer-type"))
	if got := string(e.Body.(Unread).Raw); got != `{"n":1500.0,"deep":[[1]]}` {
		t.Errorf("newer: %s", got)
	}
}

func TestRefsFindsEveryBlobOfEveryType(t *testing.T) {
	// how many blobs each file names, counted by eye
	want := map[string]int{"set-personal": 1, "set-file": 1, "set-skip": 1, "set-override": 1, "void": 1,
		"note": 1, "photo": 1, "sign": 1, "seal": 1}
	for name := range goldenHashes(t) {
		e, err := Decode(golden(t, name))
		if err != nil {
			t.Fatal(err)
		}
		if got := Refs(e); len(got) != want[name] {
			t.Errorf("%s: %v", name, got)
		}
	}
}
