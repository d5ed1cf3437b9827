package screen

import (
	"slices"
	"strings"
	"testing"

	"lugmark/checks"
	"lugmark/checks/sample"
	"lugmark/core/bank"
)

// An entry that names another part offers the parts that are there by what they
// are known by, and the next one can be added.
func TestEntriesThatNameAPartOfferTheParts(t *testing.T) {
	r := shown(t, sample.Sample{ID: "two cables", Raw: []byte(`{"lugmark": "job/1", "title": "Invented mast", "now": "2026-11-25T12:00:00Z",
		"layout": {"series": 2, "parallel": 2, "join": "strings", "takeoff": "diagonal", "place": ["b1","b2","b3","b4"]},
		"sheets": {"sheet1": {"model": "Invented 100"}},
		"parts": {"cable1": {"size": "35 mm2"}, "cable2": {"size": "2/0 AWG"}},
		"meters": {"m1": {"model": "Invented M40", "measures": "V"}, "m5": {"measures": "V"}, "m2": {"measures": "A"}}}`)})
	for _, row := range []struct{ field, part, want, next string }{ // hand: from the job above
		{"cable", "lead.p", "cable1=Cable 1, 35 mm2; cable2=Cable 2, 2/0 AWG", "cable3"},
		{"sheet", "b1", "sheet1=Block sheet 1, Invented 100", "sheet2"},
		{"use-volts", "bank", "m1=Meter 1, Invented M40; m5=Meter 5", "m6"},
		{"use-amperes", "bank", "m2=Meter 2", "m6"},
		{"use-torque", "bank", "", "w1"},
		{"target", "charge1", "bank=Bank; sA=String A; sB=String B; b1=Block 1; b2=Block 2; b3=Block 3; b4=Block 4", ""},
	} {
		f, _ := checks.FieldOf(row.field, row.part)
		ref := references[row.field]
		var got []string
		for _, o := range r.choices(f, ref, "") {
			got = append(got, o[0]+"="+o[1])
		}
		if strings.Join(got, "; ") != row.want {
			t.Errorf("%s of %s: %s, want %s", row.field, row.part, strings.Join(got, "; "), row.want)
		}
		if row.next != "" && r.job.nextPart(ref.prefix) != row.next {
			t.Errorf("%s: next is %s, want %s", row.field, r.job.nextPart(ref.prefix), row.next)
		}
	}
	if parts := r.formParts(checks.Before); !slices.Contains(parts, "cable2") || !slices.Contains(parts, "m5") {
		t.Errorf("the stage does not lead to what was added: %v", parts)
	}
}

// The step and the range of a meter carry their unit, or are a slip.
func TestMeterTextsNeedTheirUnit(t *testing.T) {
	r := shown(t, sample.List()[0])
	for _, row := range []struct {
		measures, text string
		good           bool
	}{ // hand
		{"V", "0.001 V", true}, {"V", "0.01 mV", true}, {"V", "60 mV", true}, {"A", "0.01 A", true}, {"C", "1 C", true}, {"N.m", "0.1 N.m", true},
		{"V", "0.001", false}, {"V", "fine", false}, {"V", "0.01 A", false}, {"C", "0.1", false}, {"", "0.001 V", false},
	} {
		r.text["measures"] = row.measures
		for _, id := range []string{"step", "range"} {
			f, _ := checks.FieldOfKind(id, bank.KindMeter)
			if _, slip := r.entryOf(f, row.text); slip.Empty() != row.good {
				t.Errorf("%s of a meter for %q, %q: slip %q", id, row.measures, row.text, r.say(slip))
			}
		}
	}
}
