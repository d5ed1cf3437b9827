package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
)

// Each row breaks the golden reading in one way. from is what stood there, to
// what stands there now, and says is a part of the complaint.
func TestDecodeRefusesAndSaysWhere(t *testing.T) {
	sup := func(n int) string {
		var ids []string
		for i := range n {
			ids = append(ids, fmt.Sprintf(`"019ab3c0-1d00-7000-8000-%012x"`, 0xf00+i))
		}
		return `},"sup":[` + strings.Join(ids, ",") + `]}`
	}
	const end = `}}`
	rows := []struct{ name, event, from, to, says string }{
		{"doubled key", "set-quantity", `"lam":43`, `"lam":43,"lam":43`, `member "lam" comes twice`},
		{"doubled key in the body", "set-quantity", `"u":"V"`, `"u":"V","u":"V"`, `member "u" comes twice`},
		{"doubled key in a layout", "set-layout", `"series":2`, `"series":2,"series":3`, `member "series" comes twice`},
		{"doubled key in a newer body", "newer-type", `"n":1500.0`, `"n":1,"n":2`, `member "n" comes twice`},
		{"doubled key behind an escape", "newer-type", `"n":1500.0`, `"n":1,"\u006e":2`, `member "n" comes twice`},
		{"wrong case", "set-quantity", `"seq"`, `"Seq"`, `no member is called "Seq"`},
		{"unknown member", "set-quantity", `"by":"p1"`, `"by":"p1","dev":""`, `no member is called "dev"`},
		{"unknown member of a value", "set-quantity", `"u":"V"`, `"u":"V","si":13.28`, `no member is called "si"`},
		{"wrong order", "set-quantity", `"at":"2026-11-25T08:05:39.123+01:00","by":"p1"`, `"by":"p1","at":"2026-11-25T08:05:39.123+01:00"`, `"at" stands after "by"`},
		{"missing member", "set-quantity", `"by":"p1",`, ``, `by: missing`},
		{"missing member of a value", "set-quantity", `"src":"typed"`, `"when":"2026-11-25T07:00:00Z"`, `missing: src`},
		{"trailing bytes", "set-quantity", end, end + `{}`, `something follows the end`},
		{"trailing line feed", "set-quantity", end, end + "\n", `something follows the end`},
		{"blank between members", "set-quantity", `,"lam"`, `, "lam"`, `expected "\""`},
		{"cut short", "set-quantity", end, `}`, `found the end`},
		{"invalid UTF-8", "set-text", `ü`, "\xff", `not UTF-8`},
		{"half a surrogate", "set-text", `ü`, `\ud800`, `half a surrogate`},
		{"bare control sign", "set-text", `ü`, "\x02", `control sign`},
		{"unknown escape", "set-text", `ü`, `\q`, `unknown escape`},
		{"depth 5", "set-layout", `"series":2`, `"series":[[2]]`, `nested deeper than 4`},
		{"depth 5 in a newer body", "newer-type", `[[1]]`, `[[[1]]]`, `nested deeper than 4`},
		{"line too long", "newer-type", `1500.0`, `"` + strings.Repeat("x", MaxLine) + `"`, `at most 16384`},
		{"body too long", "set-text", `IX-100`, strings.Repeat("x", MaxBody), `at most 8192`},
		{"65 superseded", "set-quantity", end, sup(65), `more than 64`},
		{"one superseded twice", "set-quantity-full", `"sup":[`, `"sup":["019ab3c0-1d00-7000-8000-000000000a03",`, `twice`},
		{"supersedes itself", "set-quantity-full", `"sup":["019ab3c0-1d00-7000-8000-000000000a03"`, `"sup":["019ab3c0-1d00-7000-8000-000000000a04"`, `names the event itself`},
		{"empty sup", "set-quantity-full", `["019ab3c0-1d00-7000-8000-000000000a03"]`, `[]`, `sup: empty`},
		{"field of two segments", "set-quantity", `v1/b3/rest-voltage`, `v1/b3`, `not visit/part/field`},
		{"field of four segments", "set-quantity", `v1/b3/rest-voltage`, `v1/b3/rest/voltage`, `not visit/part/field`},
		{"field with a blank", "set-quantity", `v1/b3/rest-voltage`, `v1/b3/rest voltage`, `not visit/part/field`},
		{"set without field", "set-quantity", `"field":"v1/b3/rest-voltage",`, ``, `field: missing`},
		{"note with field", "note", `"type":"note/1",`, `"type":"note/1","field":"v1/b3/x",`, `field: not on a note/1`},
		{"id in upper case", "set-quantity", `"id":"019ab3c0`, `"id":"019AB3C0`, `id: `},
		{"id too short", "set-quantity", `000000000a03`, `000000000a3`, `id: `},
		{"seq 0", "set-quantity", `"seq":3`, `"seq":0`, `less than 1`},
		{"seq negative", "set-quantity", `"seq":3`, `"seq":-3`, `not a whole number`},
		{"seq in exponent form", "set-quantity", `"seq":3`, `"seq":3e0`, `expected ","`},
		{"seq with a leading zero", "set-quantity", `"seq":3`, `"seq":03`, `not a whole number`},
		{"lam 0", "set-quantity", `"lam":43`, `"lam":0`, `less than 1`},
		{"lam past 2^53", "set-quantity", `"lam":43`, `"lam":9007199254740992`, `not a whole number`},
		{"prev in upper case", "set-quantity", `"prev":"6d`, `"prev":"6D`, `prev: `},
		{"prev on the first", "job", `"prev":""`, `"prev":"6db7d803e74f1ffa7d8f5adc0bf95b3e15bf4c8373fffadf546227cc6c6742cb"`, `prev: the first`},
		{"open missing on the first", "set-quantity", `"seq":3,"prev":"6db7d803e74f1ffa7d8f5adc0bf95b3e15bf4c8373fffadf546227cc6c6742cb"`, `"seq":1,"prev":""`, `open: missing`},
		{"open later on", "job", `"seq":1,"prev":""`, `"seq":2,"prev":"6db7d803e74f1ffa7d8f5adc0bf95b3e15bf4c8373fffadf546227cc6c6742cb"`, `open: stands on the first`},
		{"slack bits in the key", "job", `URo="`, `URp="`, `open.dev`},
		{"head twice", "job", `"after":[`, `"after":["a2b3c4d5e6f7g2h3 17 6db7d803e74f1ffa7d8f5adc0bf95b3e15bf4c8373fffadf546227cc6c6742cb",`, `ascending order`},
		{"head with a zero in front", "job", `a2b3c4d5e6f7g2h3 17`, `a2b3c4d5e6f7g2h3 017`, `is not stream, seq and hash`},
		{"a name as author", "set-quantity", `"by":"p1"`, `"by":"ines"`, `by: `},
		{"day that does not exist", "set-quantity", `2026-11-25T`, `2026-11-31T`, `at: `},
		{"time without offset", "set-quantity", `39.123+01:00`, `39.123`, `at: `},
		{"number with a comma", "set-quantity", `13.280`, `13,280`, `n: `},
		{"number with U+2212", "set-quantity-full", `-0.10`, `−0.10`, `n: `},
		{"number in exponent form", "set-quantity", `13.280`, `1e3`, `n: `},
		{"number as a JSON number", "set-quantity", `"13.280"`, `13.280`, `n: `},
		{"mark that says false", "set-quantity-full", `"moving":true`, `"moving":false`, `left out`},
		{"meter that is empty", "set-quantity", `"m":"m1"`, `"m":""`, `left out`},
		{"choices not in order", "set-choices", `["dent","swollen"]`, `["swollen","dent"]`, `ascending order`},
		{"empty text", "set-choice", `{"c":"no"}`, `{"s":""}`, `s: empty`},
		{"no value", "set-choice", `{"c":"no"}`, `{}`, `body: `},
		{"value of a newer kind", "set-choice", `{"c":"no"}`, `{"z":"no"}`, `cannot begin with "z"`},
		{"unknown way to skip", "set-skip", `"later"`, `"never"`, `skip: `},
		{"override without reason", "set-override", `"who":"p2","x":{`, `"who":"p2","y":{`, `no member is called "y"`},
		{"override of nothing", "set-override", `["torque@b1.n","voltage-match@b1.n~b2.p@b1.n"]`, `[]`, `names no verdict`},
		{"personal text without its random bytes", "set-personal", `"len":27`, `"len":15`, `16 random bytes`},
		{"layout that is a list", "set-layout", `"layout":{`, `"layout":[{`, `layout`},
		{"choose that spares the chosen", "choose", `"sup":["019ab3c0-1d00-7000-8000-000000000a03",`, `"sup":[`, `supersedes every rival`},
		{"void of nothing", "void", `,"sup":["019ab3c0-1d00-7000-8000-000000000a0f"]`, ``, `at least one`},
		{"void without reason", "void", `"why":"wrong-part",`, ``, `gives its reason`},
		{"photo that lacks a piece", "photo", `"len":300000`, `"len":600000`, `are 3 pieces`},
		{"seal of revision 0", "seal", `"rev":1`, `"rev":0`, `less than 1`},
		{"envelope of version 0", "set-quantity", `"v":1`, `"v":0`, `less than 1`},
		{"job id", "set-quantity", `"job":"019a`, `"job":"X19a`, `job: `},
		{"stream", "set-quantity", `k3fqz7mvb2ra5xte`, `k3fqz7mvb2ra5xt1`, `stream: `},
		{"type", "set-quantity", `"set/1"`, `"set"`, `type: `},
		{"superseded id", "set-quantity-full", `["019ab3c0`, `["019AB3C0`, `sup: `},
		{"choose without field", "choose", `"field":"v1/b3/rest-voltage",`, ``, `field: missing`},
		{"choose of nothing", "choose", `,"of":"019ab3c0-1d00-7000-8000-000000000a03"`, ``, `missing: of`},
		{"choose of a name", "choose", `"of":"019a`, `"of":"X19a`, `of: `},
		{"program without a name", "job", `"soft":true,"app":"lugmark 0.1.0"`, `"soft":true,"app":""`, `open.app`},
		{"soft as a text", "job", `"soft":true`, `"soft":"true"`, `expected true or false`},
		{"open without after", "job", `,"after":[`, `,"afters":[`, `no member is called "afters"`},
		{"unit", "set-quantity", `"u":"V"`, `"u":"N m"`, `u: `},
		{"meter", "set-quantity", `"m":"m1"`, `"m":"m 1"`, `m: `},
		{"source", "set-quantity", `"src":"typed"`, `"src":"Typed"`, `src: `},
		{"when", "set-quantity-full", `07:00:00Z`, `07:00:00`, `when: `},
		{"choice", "set-choice", `"c":"no"`, `"c":"not now"`, `c: `},
		{"when of a choice", "set-choice-when", `16:20:00+01:00`, `16:20:00`, `when: `},
		{"when that is empty", "set-choice-when", `"when":"2026-11-24T16:20:00+01:00"`, `"when":""`, `left out`},
		{"choices", "set-choices", `"dent"`, `"a dent"`, `cs: `},
		{"time", "set-time", `2027-03-01`, `March`, `t: `},
		{"file sum", "set-file", `"file":{"b":"`, `"file":{"b":"x`, `file: blob`},
		{"blob type", "set-file", `"text/csv"`, `""`, `not a media type`},
		{"blob length", "set-file", `"len":4096`, `"len":-1`, `not a whole number`},
		{"blob without length", "set-file", `"len":4096,`, ``, `a blob has b, len and type`},
		{"skip reason", "set-skip", `"no-access"`, `"No access"`, `why: `},
		{"skip until", "set-skip", `2026-12-01`, `soon`, `until: `},
		{"override by a name", "set-override", `"p2"`, `"Ines"`, `who: `},
		{"override of a part", "set-override", `"torque@b1.n"`, `"torque"`, `over: `},
		{"void reason", "void", `"wrong-part"`, `"Wrong part"`, `why: `},
		{"kind of job", "job", `"kind":"bank"`, `"kind":"ship"`, `kind: `},
		{"job without program", "job", `"kind":"bank","app":"lugmark 0.1.0"`, `"kind":"bank"`, `a job has kind and app`},
		{"job by a nameless program", "job", `"kind":"bank","app":"lugmark 0.1.0"`, `"kind":"bank","app":""`, `app: `},
		{"note about nothing", "note", `"part":"b3",`, ``, `a note has part and x`},
		{"note about two words", "note", `"part":"b3"`, `"part":"b 3"`, `part: `},
		{"photo of two words", "photo", `"part":"b3"`, `"part":"b 3"`, `part: `},
		{"photo field", "photo", `"field":"damage"`, `"field":"the damage"`, `field: `},
		{"empty photo", "photo", `"len":300000`, `"len":0`, `an empty picture`},
		{"photo sum", "photo", `"blob":{"b":"`, `"blob":{"b":"x`, `blob: `},
		{"photo piece", "photo", `"chunks":["`, `"chunks":["x`, `chunks: `},
		{"photo without pieces", "photo", `,"chunks":[`, `,"x":[`, `no member is called "x"`},
		{"small photo of another piece", "photo", `"len":300000,"type":"image/jpeg"},"chunks":["`, `"len":9,"type":"image/jpeg"},"chunks":["`, `are 1 pieces, found 2`},
		{"role", "sign", `"technician"`, `"The technician"`, `role: `},
		{"way of signing", "sign", `"typed"`, `"stamped"`, `how: `},
		{"signed digest", "sign", `"digest":"`, `"digest":"x`, `digest: `},
		{"typed name that is not salted", "sign", `"len":27`, `"len":12`, `16 random bytes`},
		{"sealed digest", "seal", `"digest":"`, `"digest":"x`, `digest: `},
		{"edition of the rules", "seal", `"rules":"2026-11"`, `"rules":""`, `rules: `},
		{"seal without rules", "seal", `,"rules":"2026-11"`, ``, `a seal has`},
		{"heads out of order", "seal", `"frontier":["a2b3c4d5e6f7g2h3`, `"frontier":["z2b3c4d5e6f7g2h3`, `ascending order`},
		{"head of words", "seal", `"frontier":["a2b3c4d5e6f7g2h3 17`, `"frontier":["a2b3c4d5e6f7g2h3`, `is not stream, seq and hash`},
		{"string without end", "set-text", `ü\u0001"}}`, `ü`, `a string has no end`},
		{"escape without end", "set-text", `ü\u0001"}}`, `\`, `a string has no end`},
		{"escape of three digits", "set-text", `\u0001`, `\u001`, `broken \u escape`},
		{"not an object", "set-quantity", `{"v":1`, `["v":1`, `expected "{"`},
		{"signature by a name", "sign", `"who":"p1"`, `"who":"Ines"`, `who: `},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			raw := golden(t, row.event)
			broken := bytes.Replace(raw, []byte(row.from), []byte(row.to), 1)
			if bytes.Equal(raw, broken) {
				t.Fatalf("%s holds no %s", row.event, row.from)
			}
			_, err := Decode(broken)
			if err == nil || !strings.Contains(err.Error(), row.says) {
				t.Fatalf("error %v; it should say %q", err, row.says)
			}
		})
	}
}

func TestLimitsAreReachedButNotPassed(t *testing.T) {
	raw := golden(t, "set-quantity")
	var ids []string
	for i := range MaxSup {
		ids = append(ids, fmt.Sprintf(`"019ab3c0-1d00-7000-8000-%012x"`, 0xf00+i))
	}
	full := bytes.Replace(raw, []byte(`}}`), []byte(`},"sup":[`+strings.Join(ids, ",")+`]}`), 1)
	if e, err := Decode(full); err != nil || len(e.Sup) != MaxSup {
		t.Errorf("64 superseded: %v", err)
	}
	newer := golden(t, "newer-type")
	body := []byte(`{"n":1500.0,"deep":[[1]]}`)
	exact := bytes.Replace(newer, body, []byte(`"`+strings.Repeat("x", MaxBody-2)+`"`), 1)
	if _, err := Decode(exact); err != nil {
		t.Errorf("a body of 8192 bytes: %v", err)
	}
}

func TestEnvelopeOfANewerVersionIsKept(t *testing.T) {
	raw := bytes.Replace(golden(t, "set-quantity"), []byte(`"v":1`), []byte(`"v":2`), 1)
	e, err := Decode(raw)
	if err != nil || e.Known || e.Field != "v1/b3/rest-voltage" {
		t.Fatalf("known %v, error %v", e.Known, err)
	}
}

func TestStrictNamesLineAndColumn(t *testing.T) {
	rows := []struct{ text, says string }{
		{"{\n  \"a\": 1,\n  \"a\": 2\n}", "line 3, column 3"},
		{"{\"a\": [1, 2,]}", "expected a value"},
		{"{\"a\": 01}", "expected a value"},
		{"{\"a\": +1}", "expected a value"},
		{"[[[1]]]", "nested deeper than 2"},
		{"{} x", "something follows the end"},
		{"{\"a\": nul}", "expected a value"},
		{"\xff", "not UTF-8"},
		{"", "expected a value"},
	}
	for _, row := range rows {
		if err := Strict([]byte(row.text), 2); err == nil || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%q: error %v; it should say %q", row.text, err, row.says)
		}
	}
	if err := Strict([]byte(" {\"a\" : [ -1.5e+3 , null, \"\\u00e9\\ud83d\\ude00\" ] }\n"), 2); err != nil {
		t.Error(err)
	}
}

func TestEncodeRefusesWhatDoesNotFitTogether(t *testing.T) {
	e, err := Decode(golden(t, "set-quantity"))
	if err != nil {
		t.Fatal(err)
	}
	other := e
	other.Type = "void/1"
	if _, err := Encode(other); err == nil {
		t.Error("a set that says it is a void")
	}
	other = e
	other.Body = nil
	if _, err := Encode(other); err == nil {
		t.Error("an event without a body")
	}
	if err := (Value{}).Validate(); err == nil {
		t.Error("a value of no kind")
	}
	for _, layout := range []string{"", "[]", `{"a":1}{}`, `{"a":1,"a":2}`, `{"a":{"b":{}}}`, `{"a": 1}`} {
		if err := (Value{Kind: KindLayout, Layout: []byte(layout)}).Validate(); err == nil {
			t.Errorf("layout %s", layout)
		}
	}
	if err := (Value{Kind: KindText, Text: "\xff"}).Validate(); err == nil {
		t.Error("a text that is not UTF-8")
	}
}

func TestEverySignOfATextComesBack(t *testing.T) {
	var all []byte
	for c := rune(0); c < 0x2100; c++ {
		all = append(all, string(c)...)
	}
	text := string(all) + "\U0001f50b\u2028"
	raw := appendText(nil, text)
	r := &reader{raw: raw}
	if got, err := r.text(); err != nil || got != text || r.end() != nil {
		t.Errorf("%v", err)
	}
	var std string
	if err := json.Unmarshal(raw, &std); err != nil || std != text {
		t.Errorf("encoding/json reads it otherwise: %v", err)
	}
	if bytes.ContainsAny(raw, "\n\r\t") {
		t.Error("a bare control sign")
	}
	r = &reader{raw: []byte(`"\u00e9\u00E9\ud83d\udd0b\/\b\f"`)}
	if got, err := r.text(); err != nil || got != "éé\U0001f50b/\b\f" {
		t.Errorf("%q, %v", got, err)
	}
}
