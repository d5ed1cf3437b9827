package prove

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"lugmark/core/job"
	"lugmark/core/record"
	"lugmark/core/say"
	"lugmark/core/seal"
)

// told is a whole report as text.
func told(r *Report, p seal.Print) string {
	var out []string
	add := func(facts []Fact) {
		for _, f := range facts {
			out = append(out, []string{"", "good", "BAD", "open"}[f.Mark]+" "+say.Voice{}.Say(f.Says))
		}
	}
	add(r.Verdict(p))
	add(r.FaultFacts(0))
	for _, j := range r.Jobs {
		out = append(out, say.Voice{}.Say(j.Name()))
		add(j.Facts())
	}
	return strings.Join(out, "\n")
}

func TestAReportSaysWhatARecordHolds(t *testing.T) {
	file, first, second := whole(t)
	n, all := 0, 0
	r := Read(file, func(i, of int) { n, all = i, of })
	if n != 12 || all != 12 {
		t.Errorf("told of %d of %d signatures (hand: twelve entries)", n, all)
	}
	if !r.Sound() || !r.Holds(first) || !r.Holds(second) || !r.Holds("") || r.Holds(seal.Fingerprint([32]byte{1})) {
		t.Fatalf("%+v", r.Faults)
	}
	says := told(r, first)
	for _, want := range []string{ // hand: counted in whole
		"good Sound:",
		"good The fingerprint matches: it is that of revision 1 of Invented jetty, sealed 08:08, 25 November 2026.",
		"open A later seal is in this record",
		"Entries: 12, from 08:01, 25 November 2026 to 08:12, 25 November 2026",
		"Revision 1, sealed 08:08, 25 November 2026 by Ines Varga, rules 2026-11. Its fingerprint: " + strings.Join(rows(first), " "),
		"open Changed since revision 1: it covers 7 entries, and 3 more came later",
		"open Changed since revision 2: it covers 9 entries, and 1 more came later",
		"good The results that revision 1 froze are here and are those that it names: 2 Pass, 1 Fail.",
		"good The results that revision 2 froze are here and are those that it names: 2 Pass, 1 Fail, 1 Can't tell.",
		"Its results were signed by Ines Varga (technician), 08:06, 25 November 2026.",
		"Its results were signed by Olu Brandt (owner), 08:07, 25 November 2026.",
		"lugmark test. Entries: 11, runs of the app: 2. The key could not be copied",
		"lugmark test. Entries: 1, runs of the app: 1. A soft key",
		"Entered by Ines Varga (p1): 11.",
		"open Entered by p2, whose name is not in this file: 1.",
		"good Texts and files that the entries name: 7, and all of them are here.",
	} {
		if !strings.Contains(says, want) {
			t.Errorf("%q is not said in\n%s", want, says)
		}
	}
	if says := told(r, second); strings.Contains(says, "A later seal") {
		t.Errorf("the last seal is not the last:\n%s", says)
	}
	if says := told(r, seal.Fingerprint([32]byte{1})); !strings.Contains(says, "BAD The fingerprint is not found: no seal") {
		t.Errorf("a strange fingerprint:\n%s", says)
	}
	if says := told(r, ""); !strings.Contains(says, "open No fingerprint was compared") {
		t.Errorf("no fingerprint:\n%s", says)
	}
}

func rows(p seal.Print) []string { r := p.Rows(); return r[:] }

// What is wrong or absent is said, each in its way.
func TestAReportSaysWhatIsWrong(t *testing.T) {
	file, first, second := whole(t)
	c, _ := record.Read(file)
	without := func(keep func(job.Blob) bool) []byte {
		out := c
		out.Blobs = slices.DeleteFunc(slices.Clone(c.Blobs), func(b job.Blob) bool { return !keep(b) })
		f, err := record.Write(out)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	lying := newBook(t)
	p := lying.phone(1, 1)
	p.begin()
	p.sign("technician", "Ines Varga", results)
	blob, ref := job.NewBlob("text/plain", []byte("other results\n"))
	p.blob(blob)
	p.keep(func(at job.Stamp) (job.Stamped, error) {
		return p.Seal(at, seal.Digest([]byte(results)), ref, "2026-11")
	})
	short := newBook(t)
	q := short.phone(1, 1)
	q.begin()
	blob, ref = job.Personal("Ines Varga", [16]byte{})
	ref.Len++
	q.blob(blob)
	q.keep(func(at job.Stamp) (job.Stamped, error) {
		return q.Set(at, job.Key{Visit: "v1", Part: "p1", Field: "name"}, job.Value{Kind: job.KindPersonal, X: ref}, nil)
	})
	unsealed := newBook(t)
	unsealed.phone(1, 1).begin()
	loose := newBook(t)
	w := loose.phone(1, 1)
	w.begin()
	w.sign("owner", "Olu Brandt", results)

	rowsOf := []struct {
		name  string
		file  []byte
		print seal.Print
		holds bool
		says  string
	}{
		{"the name erased", without(func(b job.Blob) bool { return !bytes.Contains(b.Data, []byte("Invented")) }), first, true, "revision 1 of the job " + testJob},
		{"the name erased is no fault", without(func(b job.Blob) bool { return !bytes.Contains(b.Data, []byte("Invented")) }), first, true, "open Texts and files that the entries name and that are not here: 1."},
		{"all texts erased", without(func(job.Blob) bool { return false }), second, true, "open The list of results that revision 2 froze is not in this file"},
		{"a forged digit", bytes.Replace(file, []byte("13.28"), []byte("13.38"), 1), first, false, "BAD The fingerprint is that of revision 1"},
		{"a forged digit has its line", bytes.Replace(file, []byte("13.28"), []byte("13.38"), 1), first, false, "BAD Line 5: event 4 of stream"},
		{"line ends of mail", bytes.ReplaceAll(file, []byte("\n"), []byte("\r\n")), first, true, "open Line 1: the line ends were changed"},
		{"a seal about other results", lying.file(), "", false, "BAD Line 4: the seal is about the results"},
		{"a blob of another length", short.file(), "", false, "BAD Line 3: it says that blob"},
		{"not sealed", unsealed.file(), "", true, "open Not sealed"},
		{"not sealed, and a print", unsealed.file(), first, false, "BAD The fingerprint is not found: nothing in this file is sealed."},
		{"signed, not sealed", loose.file(), "", true, "Olu Brandt (owner) signed 08:02, 25 November 2026, under results that no seal here froze."},
		{"nothing", []byte(record.Header + "\n"), "", false, "BAD Line 1: the file holds no entry"},
		{"something else", []byte("Dear Ines,\n"), "", false, "BAD Line 1: not a record file"},
	}
	for _, r := range rowsOf {
		report := Read(r.file, quiet)
		if says := told(report, r.print); report.Holds(r.print) != r.holds || !strings.Contains(says, r.says) {
			t.Errorf("%s: holds %v, want %v and %q in\n%s", r.name, report.Holds(r.print), r.holds, r.says, says)
		}
	}
	many := Read(bytes.ReplaceAll(file, []byte(`"by":"p1"`), []byte(`"by":"p9"`)), quiet)
	if got := many.FaultFacts(3); len(many.Faults) < 5 || len(got) != 4 || say.Screen.Say(got[3].Says) != "And "+itoa(len(many.Faults)-3)+" more." {
		t.Errorf("%d faults, told %v", len(many.Faults), got)
	}
	_, cannot := Read(unsealed.file(), quiet).Bounds()
	_, sealed := Read(file, quiet).Bounds()
	if len(cannot) != len(sealed)+1 {
		t.Errorf("an unsealed record can lose its end, and that is said: %d and %d sentences", len(cannot), len(sealed))
	}
}

// A name may be any text that a person or a liar typed.
func TestANameCannotWriteOverAVerdict(t *testing.T) {
	b := newBook(t)
	p := b.phone(1, 1)
	p.begin()
	p.text("site", "name", "jetty\x1b[2Kok Sound\r\n\u202e\u0085")
	if got := Read(b.file(), quiet).Jobs[0].Title; got != "jetty\ufffd[2Kok Sound\ufffd\ufffd\ufffd\ufffd" {
		t.Errorf("%q", got)
	}
}
