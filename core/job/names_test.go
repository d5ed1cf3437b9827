package job

import (
	"strings"
	"testing"
	"time"
)

// What each shape takes and what it refuses; from: boundary, unless said.
func TestShapesOfNames(t *testing.T) {
	const uuid = "019ab3c0-1d00-7000-8000-000000000001"
	rows := []struct {
		name   string
		is     func(string) bool
		takes  []string
		leaves []string
	}{
		{"UUID", isUUID, []string{uuid},
			[]string{"", uuid[1:], uuid + "0", strings.ToUpper(uuid), "019ab3c001d00-7000-8000-000000000001", "g19ab3c0-1d00-7000-8000-000000000001"}},
		{"sum", isSum, []string{strings.Repeat("0f", 32)},
			[]string{"", strings.Repeat("0f", 31), strings.Repeat("0F", 32), strings.Repeat("0g", 32)}},
		{"stream", isStream, []string{"abcdefghijklmno7", "2222222222222222"},
			[]string{"", "abcdefghijklmno", "abcdefghijklmno1", "abcdefghijklmno8", "Abcdefghijklmnop"}},
		{"segment", isSegment, []string{"b1.n~b2.p@b1.n", "A", "0-", "charge1." + uuid},
			[]string{"", "a b", "a/b", "a_b", "ä", "a\x00"}},
		{"word", isWord, []string{"a", "no-access", "set2"},
			[]string{"", "-a", "a-", "A", "2a", "a_b", "a.b"}},
		{"person", isPerson, []string{"p1", "p10", "p999999"},
			[]string{"", "p", "p0", "p01", "p1000000", "q1", "P1", "p1x", "ines"}},
		{"plain", isPlain, []string{"lugmark 0.1.0", strings.Repeat("~", 80)},
			[]string{"", strings.Repeat("x", 81), `a"b`, `a\b`, "a\n", "ä", "\x7f"}},
		{"unit", isUnit, []string{"V", "mOhm", "N.m", "%", "in.lb", "1"},
			[]string{"", "N m", "Ω", strings.Repeat("x", 17)}},
		{"type", isType, []string{"set/1", "set/12", "x-y/3"},
			[]string{"", "set", "set/", "/1", "set/0", "set/01", "set/1/2", "Set/1"}},
		{"number", isNumber, []string{"0", "-0.00", "13.280", "013.2", "-12", strings.Repeat("9", 32)},
			[]string{"", "-", ".5", "5.", "1.2.3", "1,2", "+1", "--1", "1e3", " 1", "١", "−1", strings.Repeat("9", 33)}},
		{"day", isDate, []string{"2027-03-01", "2028-02-29"},
			[]string{"", "2027-02-29", "2027-13-01", "2027-3-01", "2027-00-10", "27-03-01xx", "2027-03-01T"}},
		{"time", isTime, []string{"2026-11-25T08:05:39Z", "2026-11-25T08:05:39.123+01:00", "2026-11-25T23:59:59.123456789-11:30"},
			[]string{"", "2026-11-25", "2026-11-25T08:05:39", "2026-11-25t08:05:39Z", "2026-11-25T24:00:00Z", "2026-11-25T08:60:39Z",
				"2026-11-25T08:05:60Z", "2026-11-25T08:05:39z", "2026-11-25T08:05:39.Z", "2026-11-25T08:05:39,1Z", "2026-11-25T08:05:39+1:00",
				"2026-11-25T08:05:39+0100", "2026-11-25T08:05:39+24:00", "2026-11-25T08:05:39+01:60", "2026-11-25T0x:05:39Z",
				"2026-11-25T08:05:39.1234567890Z", "2026-11-31T08:05:39Z", "2026-11-25T08:05:39Z "}},
		{"check at part", isCheckAtPart, []string{"torque@b1.n", "joint-heat@b1.n~b2.p@b1.n"},
			[]string{"", "torque", "torque@", "@b1", "Torque@b1", "torque@b 1"}},
	}
	for _, row := range rows {
		for _, s := range row.takes {
			if !row.is(s) {
				t.Errorf("%s: %q must be taken", row.name, s)
			}
		}
		for _, s := range row.leaves {
			if row.is(s) {
				t.Errorf("%s: %q must be refused", row.name, s)
			}
		}
	}
}

func TestEveryTimeThatIsTakenCanBeRead(t *testing.T) {
	for _, s := range []string{"2026-11-25T08:05:39Z", "2026-11-25T08:05:39.123+01:00", "2026-11-25T23:59:59.123456789-11:30"} {
		if _, err := time.Parse(time.RFC3339, s); err != nil {
			t.Error(err)
		}
	}
}

func TestTheMomentIsWhenElseAt(t *testing.T) {
	e := Entry{Meta: Meta{At: "2026-11-25T08:05:39.123+01:00"}}
	if got := e.Moment().UTC(); got != time.Date(2026, 11, 25, 7, 5, 39, 123_000_000, time.UTC) {
		t.Errorf("at: %v", got)
	}
	e.Value.When = "2026-11-24T20:00:00-02:00"
	if got := e.Moment().UTC(); got != time.Date(2026, 11, 24, 22, 0, 0, 0, time.UTC) {
		t.Errorf("when: %v", got)
	}
}

func TestKeysAreReadAsTheyAreWritten(t *testing.T) {
	k := Key{"v1", "b1.n~b2.p@b1.n", "joint-r"}
	if got, err := ParseKey(k.String()); err != nil || got != k {
		t.Errorf("%v, %v", got, err)
	}
	for _, s := range []string{"", "//", "v1/b1/", "/b1/x", "v1//x", "v1/b1", "v1/b1/x/y", "v1/b1/x "} {
		if k, err := ParseKey(s); err == nil {
			t.Errorf("%q is read as %v", s, k)
		}
	}
	if (Key{}).String() != "" {
		t.Error("the zero key names nothing")
	}
}
