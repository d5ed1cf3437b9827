package exchange

import (
	"strings"
	"testing"

	"lugmark/core/job"
)

func messages(t testing.TB) []Message {
	events := newAuthor(t, 3).writes(2)
	sum := strings.Repeat("ab", 32)
	c := Cursor{}.Next(events[0].Hash)
	return []Message{
		{Kind: Push, Job: testJob},
		{Kind: Push, Job: testJob, Events: events},
		{Kind: Truth, Job: testJob},
		{Kind: Truth, Job: testJob, End: c, Heads: []job.Head{events[0].head()}, Aside: []job.Head{events[1].head()}},
		{Kind: Brief, Job: testJob, End: c, Aside: []job.Head{events[1].head()}},
		{Kind: Pull, Job: testJob}, {Kind: Pull, Job: testJob, From: c},
		{Kind: Page, Job: testJob, From: c, To: c.Next(events[1].Hash), Events: events[1:]},
		{Kind: Have, Job: testJob, Sums: []string{sum}}, {Kind: Lack, Job: testJob},
		{Kind: Problem, Code: CodeRefused, Index: 3, Why: "the <signature> does not match"},
	}
}

func TestMessagesComeBackAsTheyWere(t *testing.T) {
	for _, m := range messages(t) {
		data := Encode(m)
		got, err := Decode(data)
		if err != nil || string(Encode(got)) != string(data) || len(got.Events) != len(m.Events) {
			t.Errorf("%s: %v", data, err)
		}
	}
}

func TestOneSpellingOnly(t *testing.T) {
	push := string(Encode(messages(t)[1]))
	truth := string(Encode(messages(t)[3]))
	cursor := Cursor{}.Next([32]byte{}).String()
	for name, text := range map[string]string{
		"empty":            "",
		"no line end":      strings.TrimSuffix(push, "\n"),
		"line ends of DOS": strings.ReplaceAll(push, "\n", "\r\n"),
		"an empty line":    push + "\n",
		"a blank":          strings.Replace(push, `":"`, `": "`, 1),
		"a doubled member": strings.Replace(push, `{`, `{"lugmark":"truth/1",`, 1),
		"another case":     strings.Replace(push, `"job"`, `"Job"`, 1),
		"unknown member":   strings.Replace(push, `}`, `,"more":1}`, 1),
		"foreign member":   strings.Replace(push, `}`, `,"why":"x"}`, 1),
		"unknown kind":     strings.Replace(push, "push/1", "push/2", 1),
		"no job":           `{"lugmark":"push/1"}` + "\n",
		"another job":      strings.Replace(push, testJob, strings.Replace(testJob, "1", "2", 1), 1),
		"half a surrogate": `{"lugmark":"problem/1","code":"busy","why":"\ud800"}` + "\n",
		"a head in capitals": strings.Replace(truth, truth[strings.Index(truth, `"heads":["`)+10:][:16],
			strings.ToUpper(truth[strings.Index(truth, `"heads":["`)+10:][:16]), 1),
		"cursor with plus":    `{"lugmark":"pull/1","job":"` + testJob + `","from":"+` + cursor + `"}` + "\n",
		"cursor with capital": `{"lugmark":"pull/1","job":"` + testJob + `","from":"` + strings.ToUpper(cursor) + `"}` + "\n",
		"events with a pull":  strings.Replace(push, `{"lugmark":"push/1","job":"`+testJob+`"}`, `{"lugmark":"pull/1","job":"`+testJob+`","from":"0"}`, 1),
		"a head that is none": `{"lugmark":"truth/1","job":"` + testJob + `","end":"0","heads":["a 1 b"]}` + "\n",
		"an index too high":   `{"lugmark":"problem/1","code":"refused","index":2000}` + "\n",
		"heads in disorder":   strings.Replace(truth, `"heads":[`, `"heads":[`+truth[strings.Index(truth, `"heads":[`)+9:strings.Index(truth, `],"aside"`)]+`,`, 1),
		"a sum in capitals":   `{"lugmark":"have/1","job":"` + testJob + `","sums":["` + strings.Repeat("A", 64) + `"]}` + "\n",
		"too many sums":       string(Encode(Message{Kind: Have, Job: testJob, Sums: make([]string, MaxSums+1)})),
		"sums in disorder":    `{"lugmark":"have/1","job":"` + testJob + `","sums":["` + strings.Repeat("b", 64) + `","` + strings.Repeat("a", 64) + `"]}` + "\n",
		"too many events":     push + strings.Repeat(strings.SplitAfter(push, "\n")[1], MaxEvents),
		"too long":            strings.Repeat("x", MaxBytes+1),
	} {
		if _, err := Decode([]byte(text)); err == nil {
			t.Errorf("%s is read", name)
		}
	}
}

func TestEveryBitOfAMessageCounts(t *testing.T) {
	data := Encode(messages(t)[7])
	for i := range data {
		for bit := range 8 {
			bad := []byte(string(data))
			bad[i] ^= 1 << bit
			m, err := Decode(bad)
			if err == nil && string(Encode(m)) == string(data) {
				t.Fatalf("byte %d bit %d: another text, the same message", i, bit)
			}
		}
	}
}

func TestCursors(t *testing.T) {
	c := Cursor{}.Next([32]byte{1}).Next([32]byte{2})
	if got, err := ParseCursor(c.String()); err != nil || got != c {
		t.Errorf("%v, %v", got, err)
	}
	// SHA-256 of 64 zero bytes, as: head -c 64 with bytes of zero, through sha256sum
	if got := (Cursor{}).Next([32]byte{}).String(); got != "1 f5a5fd42d16a20302798ef6ed309979b43003d2320d9f0e8ea9831a92759fb4b" {
		t.Error(got)
	}
}

func FuzzDecode(f *testing.F) {
	for _, m := range messages(f) {
		f.Add(Encode(m))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := Decode(data)
		if err != nil {
			return
		}
		if string(Encode(m)) != string(data) {
			t.Fatalf("read and written again: %q", Encode(m))
		}
		p := NewPhone(m.Job, func(Key, [32]byte, []byte) bool { return true }, Held{})
		for _, status := range []int{200, 409, 410, 422} {
			ask := p.Next()
			if step := p.Answer(ask, Reply{Status: status, Message: m}); step.Keep != nil {
				p.Kept(*step.Keep)
			}
		}
		l := (&office{}).log()
		l.Job = m.Job
		l.Decide(func(Key, [32]byte, []byte) bool { return true }, m.Events)
	})
}
