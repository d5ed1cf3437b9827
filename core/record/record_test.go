package record

import (
	"bytes"
	"crypto/ed25519"
	"encoding/base64"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"lugmark/core/job"
	"lugmark/core/seal"
)

const testJob = "019ab3c0-1d00-7000-8000-000000000001"

var testKey = ed25519.NewKeyFromSeed(bytes.Repeat([]byte{7}, 32))

// six events of one stream, two blobs
func contents(t testing.TB) Contents {
	t.Helper()
	s := job.New(testJob)
	author := job.Author{By: "p1", Key: seal.EncodeKey(testKey.Public().(ed25519.PublicKey)), Soft: true, App: "lugmark test"}
	w := job.NewWriter(author, [16]byte{1}, s)
	var c Contents
	n := 0
	add := func(make func(at job.Stamp) (job.Stamped, error)) {
		t.Helper()
		n++
		stamped, err := make(job.Stamp{
			Now: time.Date(2026, 11, 25, 8, n, 0, 0, time.FixedZone("", 3600)),
			ID:  fmt.Sprintf("019ab3c0-1d00-7000-8000-%012x", n),
		})
		if err != nil {
			t.Fatal(err)
		}
		signed := stamped.Signed(seal.Sign(testKey, stamped.Hash))
		if err := s.ApplySigned(signed); err != nil {
			t.Fatal(err)
		}
		c.Events = append(c.Events, signed)
	}
	key := func(part, field string) job.Key { return job.Key{Visit: "v1", Part: part, Field: field} }
	add(func(at job.Stamp) (job.Stamped, error) { return w.Start(at, job.KindBank) })
	add(func(at job.Stamp) (job.Stamped, error) {
		st, blob, err := w.SetPersonal(at, key("site", "name"), "Invented jetty", [16]byte{2}, nil)
		c.Blobs = append(c.Blobs, blob)
		return st, err
	})
	add(func(at job.Stamp) (job.Stamped, error) {
		return w.SetQuantity(at, key("b3", "rest-voltage"), "13.28", "V", "m1", nil)
	})
	add(func(at job.Stamp) (job.Stamped, error) {
		return w.SetText(at, key("b3", "model"), "two  blanks \\ and a ü", nil)
	})
	add(func(at job.Stamp) (job.Stamped, error) {
		st, blob, err := w.Note(at, "b3", "dusty.", [16]byte{3})
		c.Blobs = append(c.Blobs, blob)
		return st, err
	})
	add(func(at job.Stamp) (job.Stamped, error) {
		return w.SetChoice(at, key("b1.n~b2.p", "closed"), "no", nil)
	})
	return c
}

func file(t testing.TB) []byte {
	t.Helper()
	f, err := Write(contents(t))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestARecordIsReadAsItWasWritten(t *testing.T) {
	want, f := contents(t), file(t)
	got, faults := Read(f)
	if len(faults) != 0 || len(got.Events) != 6 || len(got.Blobs) != 2 || !slices.Equal(got.Lines, []int{2, 3, 4, 5, 6, 7}) {
		t.Fatalf("%d events on lines %v, %d blobs, faults %v", len(got.Events), got.Lines, len(got.Blobs), faults)
	}
	for i, e := range got.Events {
		if !bytes.Equal(e.Raw, want.Events[i].Raw) || !bytes.Equal(e.Sig, want.Events[i].Sig) || e.Seq != i+1 {
			t.Errorf("event %d: %s", i+1, e.Raw)
		}
	}
	for _, b := range got.Blobs {
		if b.Type != "text/plain" {
			t.Errorf("blob %s is %q", b.Sum, b.Type)
		}
	}
	if again, _ := Write(got); !bytes.Equal(again, f) {
		t.Error("written again, the file differs")
	}
	good, faults := Verify(got)
	if len(faults) != 0 || len(good.Events) != 6 || len(Missing(good)) != 0 {
		t.Errorf("%d good, faults %v", len(good.Events), faults)
	}
}

func TestTheSameSetMakesTheSameFile(t *testing.T) {
	c := contents(t)
	slices.Reverse(c.Events)
	slices.Reverse(c.Blobs)
	c.Events = append(c.Events, c.Events[2])
	c.Blobs = append(c.Blobs, c.Blobs[0])
	if again, err := Write(c); err != nil || !bytes.Equal(again, file(t)) {
		t.Errorf("in another order the file differs, %v", err)
	}
}

func TestEventsStandInTheOrderOfTheJob(t *testing.T) {
	c := contents(t)
	// The last event gets the first id; its lam says where it belongs.
	const last = `"id":"019ab3c0-1d00-7000-8000-000000000006"`
	c.Events[5].Raw = bytes.Replace(c.Events[5].Raw, []byte(last), []byte(`"id":"019ab3c0-1d00-7000-8000-000000000000"`), 1)
	f, err := Write(c)
	if err != nil {
		t.Fatal(err)
	}
	got, _ := Read(f)
	for i, e := range got.Events {
		if e.Seq != i+1 {
			t.Errorf("event %d has seq %d", i+1, e.Seq)
		}
	}
}

func TestWriteRefusesWhatNobodyCouldRead(t *testing.T) {
	for name, spoil := range map[string]func(*Contents){
		"an event that is none":     func(c *Contents) { c.Events[0].Raw = []byte("{}") },
		"a signature that is short": func(c *Contents) { c.Events[0].Sig = c.Events[0].Sig[:63] },
		"a blob under another sum":  func(c *Contents) { c.Blobs[0].Sum = strings.Repeat("ab", 32) },
	} {
		c := contents(t)
		spoil(&c)
		if _, err := Write(c); err == nil {
			t.Errorf("%s", name)
		}
	}
}

// Whatever bit of the file is turned: a line is named, it is the right line,
// and the other lines are kept.
func TestAnyFlippedBitIsFoundOnItsLine(t *testing.T) {
	f := file(t)
	line := 1
	for at := range f {
		bits := []int{at % 8}
		if f[at] == ' ' || f[at] == '\n' || f[at-at%64] == ' ' {
			bits = []int{0, 1, 2, 3, 4, 5, 6, 7}
		}
		for _, bit := range bits {
			bad := bytes.Clone(f)
			bad[at] ^= 1 << bit
			c, faults := Read(bad)
			good, more := Verify(c)
			faults = append(faults, more...)
			if len(faults) == 0 && f[at] == '\n' && at == len(f)-1 {
				continue
			}
			if !slices.ContainsFunc(faults, func(f Fault) bool { return f.Line == line }) {
				t.Fatalf("byte %d bit %d, line %d: faults %v", at, bit, line, faults)
			}
			// A turned line feed joins two lines, or makes two of one.
			if len(good.Events)+len(good.Blobs) < 8-2 {
				t.Fatalf("byte %d bit %d: only %d events and %d blobs are left", at, bit, len(good.Events), len(good.Blobs))
			}
		}
		if f[at] == '\n' {
			line++
		}
	}
}

func TestWhatHidesInTheSpellingIsFound(t *testing.T) {
	f := file(t)
	lines := strings.SplitAfter(string(f), "\n")
	sig := strings.Fields(lines[1])[1]
	var blob int
	for i, l := range lines {
		if strings.HasPrefix(l, "b ") && strings.HasSuffix(l, "=\n") {
			blob = i
		}
	}
	if blob == 0 {
		t.Fatal("no blob with padding")
	}
	sum := strings.Fields(lines[blob])[1]
	rows := []struct {
		name, from, to string
		line           int
	}{
		// 64 bytes leave four bits unused before the padding.
		{"slack bits of a signature", sig, slack(sig), 2},
		{"slack bits of a blob", lines[blob], slack(lines[blob][:len(lines[blob])-1]) + "\n", blob + 1},
		{"a sum in upper case", "b " + sum, "b " + strings.ToUpper(sum), blob + 1},
		{"two blanks", "e " + sig + " ", "e " + sig + "  ", 2},
		{"a blank at the end", lines[1], strings.TrimSuffix(lines[1], "\n") + " \n", 2},
		{"no padding", sig, strings.TrimRight(sig, "="), 2},
		{"an empty line", lines[1], "\n" + lines[1], 2},
		{"another kind of line", lines[1], "x" + lines[1][1:], 2},
		{"a carriage return within base64", sig, sig[:40] + "\r" + sig[40:], 2},
		{"base64 of the web", sig, strings.NewReplacer("+", "-", "/", "_").Replace(sig), 2},
	}
	for _, r := range rows {
		bad := strings.Replace(string(f), r.from, r.to, 1)
		if bad == string(f) {
			t.Fatalf("%s: nothing to change", r.name)
		}
		_, faults := Read([]byte(bad))
		if len(faults) != 1 || faults[0].Line != r.line {
			t.Errorf("%s: faults %v, want one on line %d", r.name, faults, r.line)
		}
	}
}

// slack turns the lowest bit of the last digit of base64, which no byte uses.
func slack(s string) string {
	const digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"
	at := len(strings.TrimRight(s, "=")) - 1
	n := strings.IndexByte(digits, s[at])
	out := s[:at] + string(digits[n^1]) + s[at+1:]
	a, _ := base64.StdEncoding.DecodeString(s[strings.LastIndexByte(s, ' ')+1:])
	b, _ := base64.StdEncoding.DecodeString(out[strings.LastIndexByte(out, ' ')+1:])
	if !bytes.Equal(a, b) {
		panic("the test turned a bit that is in use")
	}
	return out
}

func TestADamagedFileKeepsWhatIsWhole(t *testing.T) {
	f := file(t)
	c, faults := Read(f[:len(f)*2/3])
	if len(c.Events) < 4 || len(faults) != 1 {
		t.Errorf("cut off: %d events, faults %v", len(c.Events), faults)
	}
	c, faults = Read(bytes.ReplaceAll(f, []byte("\n"), []byte("\r\n")))
	if len(c.Events) != 6 || len(c.Blobs) != 2 || len(faults) != 1 || !strings.Contains(faults[0].Why, "CR LF") {
		t.Errorf("line ends: %d events, faults %v", len(c.Events), faults)
	}
	c, faults = Read(append([]byte("\ufeff"), f...))
	if len(c.Events) != 6 || len(faults) != 1 {
		t.Errorf("sign in front: %d events, faults %v", len(c.Events), faults)
	}
	c, faults = Read(bytes.Replace(f, []byte(Header), []byte("lugmark-record 2"), 1))
	if len(c.Events) != 6 || len(faults) != 1 || !strings.Contains(faults[0].Why, `"lugmark-record 2"`) {
		t.Errorf("newer file: %d events, faults %v", len(c.Events), faults)
	}
	for _, other := range []string{"\x89PNG\n\n\n\n", `{"lugmark": "job/1"}`, "x"} {
		if c, faults := Read([]byte(other)); len(c.Events) != 0 || len(faults) != 1 {
			t.Errorf("%q: faults %v", other, faults)
		}
	}
	if _, faults := Read([]byte(Header)); len(faults) != 0 {
		t.Errorf("a record of nothing: %v", faults)
	}
}

func TestVerifyNamesTheLineOfAForgedDigit(t *testing.T) {
	f := bytes.Replace(file(t), []byte("13.28"), []byte("13.29"), 1)
	c, faults := Read(f)
	if len(faults) != 0 {
		t.Fatalf("as text the line is whole: %v", faults)
	}
	good, faults := Verify(c)
	if len(good.Events) != 5 || len(faults) == 0 || faults[0].Line != 4 || !strings.Contains(faults[0].Why, "signature") {
		t.Errorf("%d good, faults %v", len(good.Events), faults)
	}
}

func TestAnErasedPersonIsMissingButNoFault(t *testing.T) {
	c := contents(t)
	c.Blobs = c.Blobs[1:]
	f, err := Write(c)
	if err != nil {
		t.Fatal(err)
	}
	got, faults := Read(f)
	got, more := Verify(got)
	if len(faults)+len(more) != 0 {
		t.Errorf("faults %v %v", faults, more)
	}
	if m := Missing(got); len(m) != 1 || m[0].Len != 16+len("Invented jetty") {
		t.Errorf("missing %v", m)
	}
}
