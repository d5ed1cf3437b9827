package plain

import (
	"strings"
	"testing"
)

// What people get wrong, the line on which it stands and a piece of the
// sentence that they read.
func TestFaultsSayWhereAndHowToMend(t *testing.T) {
	rows := []struct {
		name, text string
		line       int
		says       string
	}{
		{"two separators", with("", `"b1/rest-voltage": "1.3.2 V"`), 3, "more than one point or comma"},
		{"thousands and decimals", with("", "\n"+`"b1/rest-voltage": "1,234.5 V"`), 4, "more than one point or comma"},
		{"a letter for a digit", with("", `"b1/rest-voltage": "13.2o8 V"`), 3, "“o” is not a digit"},
		{"no number at all", with("", `"b1/rest-voltage": "full"`), 3, "“full” is not a digit"},
		{"another unit", with("", `"b1/rest-voltage": "13.2 A"`), 3, "asks for V"},
		{"an unknown unit", with("", `"b1/rest-voltage": "13.2 bar"`), 3, "“bar” is neither a digit nor a unit"},
		{"no unit", with("", `"b1/rest-voltage": "13.2"`), 3, "such as “13.2 V”"},
		{"a bare number", with("", `"b1/rest-voltage": 13.2`), 3, "such as “13.2 V”"},
		{"outside physics", with("", `"b1/rest-voltage": "132.0 V"`), 3, "132.0 V is outside -20 V to 20 V"},
		{"outside, in its own unit", with("", `"b1/gap-voltage": "40 V"`), 3, "outside -30 V to 30 V"},
		{"hotter than the sun", with("", `"b1/temperature": "900 C"`), 3, "outside -40 C to 90 C"},
		{"unknown reading", with("", `"b1/rest-volts": "13.2 V"`), 3, "nearest known name is “rest-voltage”"},
		{"field of another part", with("", `"b1/torque-set": "9 N.m"`), 3, "Block 1 has no “torque-set”"},
		{"unknown part", with("", `"block1/rest-voltage": "13.2 V"`), 3, "“block1” is not a part"},
		{"part not in the layout", with("", `"b7/rest-voltage": "13.2 V"`), 3, "“b7” is not in this layout"},
		{"link the wrong way round", with("", `"b2.p~b1.n/closed": "yes"`), 3, "nearest known name is “b1.n~b2.p”"},
		{"unknown stage", with("", `"stage.wires/hazards-read": "yes"`), 3, "nearest known name is “stage.wire”"},
		{"no field", with("", `"rest-voltage": "13.2 V"`), 3, "part/field"},
		{"a visit that is none", with("", `"w2/b1/rest-voltage": "13.2 V"`), 3, "part/field"},
		{"doubled key", with("", `"b1/temperature": "18 C",`+"\n"+`"b1/temperature": "19 C"`), 4, "the first is on line 3"},
		{"doubled under two names", with("", `"b1/temperature": "18 C",`+"\n"+`"v1/b1/temperature": "19 C"`), 4, "given twice; the first is on line 3"},
		{"doubled in two sections", with(`, "sheets": {"sheet1": {"blocks": ["b1"]}}, "parts": {"b1": {"sheet": "sheet2"}}`, ""), 2, "given twice"},
		{"not an answer", with("", `"b1.n~b2.p/closed": "yess"`), 3, "nearest known name is “yes”"},
		{"ticked, but not in the list", with("", `"bank/labels": "voltage, datum"`), 3, "nearest known name is “date”"},
		{"a list for ticks", with("", `"bank/labels": {"n": ["voltage", "date"]}`), 3, "commas between the answers"},
		{"none beside another", with("", `"bank/labels": "none, date"`), 3, "no answer “none”"},
		{"true for yes", with("", `"b1.n~b2.p/closed": true`), 3, "a word in quotes"},
		{"an odd skip", with("", `"b1/temperature": {"skip": "latter", "why": "wait"}`), 3, "nearest known name is “later”"},
		{"a skip without a reason", with("", `"b1/temperature": {"skip": "later"}`), 3, "gives its reason"},
		{"number and skip", with("", `"b1/temperature": {"n": "18 C", "skip": "later", "why": "wait"}`), 3, "does not go with"},
		{"neither", with("", `"b1/temperature": {"moving": true}`), 3, "neither “n” nor “skip”"},
		{"unknown mark", with("", `"b1/temperature": {"n": "18 C", "time": "2026-11-25T12:00:00Z"}`), 3, "“time” is not known"},
		{"a serial with a time", with(`, "parts": {"b1": {"serial": {"n": "S1", "at": "2026-11-25T12:00:00+01:00"}}}`, ""), 2, "a measured number or an answer only"},
		{"a time without its offset", with("", `"b1/temperature": {"n": "18 C", "at": "2026-11-25T12:00:00"}`), 3, "with its offset"},
		{"a day where an hour matters", with("", `"bank/last-current": "2026-11-24"`), 3, "with its offset"},
		{"a day that is none", with(`, "meters": {"m1": {"due": "2027-02-30"}}`, ""), 2, "neither a day"},
		{"an answer with a meter", with("", `"b1.n~b2.p/closed": {"n": "yes", "m": "m1"}`), 3, "measured number only"},
		{"a meter that is none", with("", `"b1/temperature": {"n": "18 C", "m": "probe"}`), 3, "is not a meter"},
		{"half a count", with(`, "sheets": {"sheet1": {"series-max": 4.5}}`, ""), 2, "counts whole things"},
		{"a count as a power", with(`, "sheets": {"sheet1": {"series-max": 1e1}}`, ""), 2, "“e” is not a digit"},
		{"a reading among the parts", with(`, "parts": {"charger1": {"absorption": "28.4 V"}}`, ""), 2, "write it under “readings” as “charger1/absorption”"},
		{"a meter among the sheets", with(`, "sheets": {"m1": {}}`, ""), 2, "does not belong under “sheets”"},
		{"unknown field of a sheet", with(`, "sheets": {"sheet1": {"charge-volt-max": "14.6 V"}}`, ""), 2, "nearest known name is “charge-voltage-max”"},
		{"one torque too many", with(`, "sheets": {"sheet1": {"torque": ["8 N.m"]}}`, ""), 2, "or two in a list"},
		{"a limit that nobody can set", with(`, "house": {"voltage-match": {"spraed": "0.008 V"}}`, ""), 2, "nearest known name is “voltage-match.spread”"},
		{"use for what", with(`, "use": {"Volt": "m1"}`, ""), 2, "not what a meter"},
		{"a step without a unit", with(`, "meters": {"m1": {"step": "0.001"}}`, ""), 2, "such as “0.001 V”"},
		{"a sheet that is none", with(`, "parts": {"b1": {"sheet": "Invented 100"}}`, ""), 2, "names a block sheet"},
		{"unknown section", with(`, "metres": {}`, ""), 2, "nearest known name is “meters”"},
		{"empty text", with(`, "parts": {"b1": {"serial": " "}}`, ""), 2, "is empty"},
		{"null", with("", `"b1/temperature": null`), 3, "such as “10 C”"},
		{"a list of one", with("", `"b1/temperature": ["18 C"]`), 3, "two or more"},
		{"an earlier value after the last", with("", `"b1.n~b2.p/closed": "no",`+"\n"+`"b1.n~b2.p/closed#1": "yes"`), 4, "must stand before"},
		{"seventeen in series", `{"lugmark": "job/1", "layout": {"series": 17, "parallel": 1, "join": "strings", "takeoff": "one-end"}}`, 1, "enter 1 to 16"},
		{"a bank without a join", `{"lugmark": "job/1", "layout": {"series": 2, "parallel": 1, "takeoff": "one-end"}}`, 1, "has no “join”"},
		{"a block in two places", `{"lugmark": "job/1", "layout": {"series": 2, "parallel": 1, "join": "strings", "takeoff": "one-end", "place": ["b1", "b1"]}}`, 1, "two places"},
		{"places short", `{"lugmark": "job/1", "layout": {"series": 2, "parallel": 2, "join": "strings", "takeoff": "one-end", "place": ["b1", "b2"]}}`, 1, "needs 4 blocks"},
		{"corrupt", "{\"lugmark\": \"job/1\",\n \"readings\": {\"b1/temperature\": \"18 C\"", 2, "Found the end of the file"},
		{"a quote forgotten", "{\"lugmark\": \"job/1\",\n \"title\": \"Invented jetty,\n \"now\": \"x\"}", 2, "Add the missing quote"},
		{"a comma too many", "{\"lugmark\": \"job/1\",\n}", 2, "a comma too many"},
		{"a comma forgotten", "{\"lugmark\": \"job/1\"\n \"title\": \"x\"}", 2, "a comma or a closing bracket"},
		{"two values", "{\"lugmark\": \"job/1\"}\n{}", 2, "the end of the file belongs"},
		{"a bare word", `{"lugmark": job}`, 1, "a value belongs"},
		{"half a surrogate", `{"lugmark": "job/1", "title": "\ud800"}`, 1, "a sign that is none"},
		{"not UTF-8", "{\"lugmark\": \"job/1\", \"title\": \"\xff\"}", 1, "not UTF-8"},
		{"too deep", `{"lugmark": "job/1", "parts": {"a": {"b": [[[[[1]]]]]}}}`, 1, "Too many brackets"},
		{"foreign", `{"name": "something else", "version": 2}`, 1, "not a plain job"},
		{"foreign list", `[1, 2]`, 1, "not a plain job"},
		{"foreign with our key", "{\n\"lugmark\": \"shopping/1\"}", 2, "not a plain job"},
		{"newer", "{\n\"lugmark\": \"job/2\", \"bank\": {}}", 2, "“job/2”; this version reads “job/1”"},
		{"nothing", "", 1, "a value belongs"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			f, faults := Parse([]byte(r.text))
			if f != nil || len(faults) == 0 {
				t.Fatal("not refused")
			}
			for _, x := range faults {
				if x.Line == r.line && strings.Contains(x.Error(), r.says) {
					return
				}
			}
			t.Errorf("want line %d: …%s…, got %v", r.line, r.says, faults)
		})
	}
}

func TestAnUndrawnLinkIsNoted(t *testing.T) {
	f, faults := Parse([]byte(with("", `"b1.n~b9.p/closed": "yes"`)))
	if len(faults) > 0 || len(f.Notes) != 1 || !strings.Contains(f.Notes[0].Error(), "not in the drawing") {
		t.Errorf("%v %v", f, faults)
	}
	if f, _ := Parse([]byte(with("", `"b8.n~b9.p/closed": "yes"`))); f != nil {
		t.Error("a link of another bank is taken")
	}
}

func TestEveryFaultIsNamedNotOnlyTheFirst(t *testing.T) {
	_, faults := Parse([]byte(with("", `"b1/rest-voltage": "1.3.2 V",
"b2/rest-volt": "13.2 V",
"b9/rest-voltage": "13.2 V",
"b3/rest-voltage": "13.2 V",
"b4/rest-voltage": "13.2 A"`)))
	var lines []int
	for _, f := range faults {
		lines = append(lines, f.Line)
	}
	if want := []int{3, 4, 5, 7}; len(lines) != 4 || lines[0] != want[0] || lines[1] != want[1] || lines[2] != want[2] || lines[3] != want[3] {
		t.Errorf("faults on lines %v, want %v", lines, want)
	}
}

func TestManyFaultsEndSomewhere(t *testing.T) {
	var b strings.Builder
	for i := range 1000 {
		b.WriteString(`"x` + count(i) + `/y": 1,` + "\n")
	}
	_, faults := Parse([]byte(with("", b.String()+`"z/y": 1`)))
	if len(faults) != maxFaults+1 || !strings.Contains(faults[maxFaults].Error(), "more faults") {
		t.Errorf("%d faults, the last %v", len(faults), faults[len(faults)-1])
	}
}

// The same serial twice is a finding about two labels, not a slip of the file:
// it is kept and noted.
func TestASerialTwiceIsNotedNotRefused(t *testing.T) {
	f, faults := Parse([]byte(with(`, "parts": {"b1": {"serial": "IV-0001"}, "b2": {"serial": "IV-0002"},
"b3": {"serial": "iv-0001 "}}`, "")))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if len(f.Notes) != 1 || f.Notes[0].Line != 3 || !strings.Contains(f.Notes[0].Error(), "Block 3 has the serial of Block 1") {
		t.Errorf("notes %v", f.Notes)
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(jetty))
	f.Add([]byte(with("", `"b1.n~b2.p/closed#1": "yes", "b1.n~b2.p/closed": ["no", "yes"]`)))
	f.Add([]byte(`{"lugmark":"job/2"}`))
	f.Add([]byte(`{"`))
	f.Add([]byte("\ufeff{\"lugmark\" : \"job/1\", \"title\":\"\\u00e9\\ud83d\\ude00\"}"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		file, faults := Parse(raw)
		if (file == nil) == (len(faults) == 0) {
			t.Fatal("a file or faults, never both or neither")
		}
		for _, x := range faults {
			if x.Line < 1 || x.Text.Empty() || strings.Contains(x.Error(), "{what}") {
				t.Fatalf("fault without place or sentence: %+v", x)
			}
		}
		if file == nil || file.Now.IsZero() {
			return
		}
		state, blobs, err := file.State()
		if err != nil {
			t.Fatalf("read, but no state: %v", err)
		}
		again, err := Export(state, blobs, file.Visit, file.Now)
		if err != nil {
			t.Fatalf("read, but not written: %v", err)
		}
		second, faults := Parse(again)
		if len(faults) > 0 {
			t.Fatalf("written, but not read: %v", faults)
		}
		state, blobs, err = second.State()
		if err != nil {
			t.Fatal(err)
		}
		third, err := Export(state, blobs, second.Visit, second.Now)
		if err != nil || string(third) != string(again) {
			t.Fatalf("written twice, not alike: %v\n%s\n%s", err, again, third)
		}
	})
}
