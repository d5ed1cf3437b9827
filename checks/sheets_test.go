package checks

import (
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

const twoSheets = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet2
	b4/sheet = sheet2
	sheet1/page = p. 12
	sheet1/capacity = 100 Ah
	sheet2/capacity = 105 Ah
`

func TestTheStrictestSheetBinds(t *testing.T) {
	f := fixture(t, twoByTwo, twoSheets, "sheet1/charge-voltage-max = 14.4 V\nsheet2/charge-voltage-max = 14.6 V\nsheet1/charge-temp-min = -5 C\nsheet2/charge-temp-min = 2 C")
	if c := f.capacity("bank"); !c.All() || c.Value != 100 || c.Sheet != "sheet1" {
		t.Errorf("capacity %+v, want 100 Ah of sheet1 (hand: the smaller)", c)
	}
	if c := f.capacity("sB"); c.Value != 105 {
		t.Errorf("capacity of string B %v, want 105 (hand)", c.Value)
	}
	if v := f.vmax("bank"); v.Value != 14.4 || v.Kind != finding.Maker || (say.Voice{}).Say(v.Source) != "the maker's sheet, p. 12" {
		t.Errorf("vmax %v %v %v, want 14.4 V of sheet1, p. 12 (hand: the smaller)", v.Value, v.Kind, (say.Voice{}).Say(v.Source))
	}
	if s := highest(f, sheetColdest, "bank"); s.Value != 2 {
		t.Errorf("coldest %v, want 2 °C (hand: the larger)", s.Value)
	}
}

func TestASilentSheetIsNeverZero(t *testing.T) {
	f := fixture(t, twoByTwo, twoSheets, "sheet1/charge-voltage-max = 14.8 V", "sheet1/charge-max = 50 A")
	f.begin()
	if v := f.vmax("bank"); v.Value != 14.6 || v.Kind != finding.Practice || len(f.assumed) != 1 {
		t.Errorf("vmax %v %v with %d assumptions, want the usual 14.6 V for the silent sheet2 (common practice), said once", v.Value, v.Kind, len(f.assumed))
	}
	s := lowest(f, sheetChargeMax, "bank")
	if !s.Any() || s.All() || s.Silent != "b3" {
		t.Errorf("%+v, want b3 to be the silent one (hand)", s)
	}
	if got := (say.Voice{}).Say(s.Enter()); got != "Enter: Highest charge current, Block sheet 2." {
		t.Errorf("next: %q", got)
	}
	none := fixture(t, twoByTwo, "b1/sheet = nonsense")
	if s := lowest(none, sheetChargeMax, "bank"); s.Any() || (say.Voice{}).Say(s.Enter()) != "Enter: Block sheet, Block 1." {
		t.Errorf("%+v: %q", s, (say.Voice{}).Say(s.Enter()))
	}
}
