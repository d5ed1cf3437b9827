package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// A person does what the next action says, so its figure must be right too.
func TestTheNextActionNamesTheRightFigure(t *testing.T) {
	pair := bank.New(1, 2, bank.JoinGroups, bank.OneEnd)
	const oneString = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/charge-voltage-max = 14.6 V\nsheet1/charge-max = 50 A\nsheet1/capacity = 100 Ah\n"
	const overloaded = capacitySheet + "sheet1/overload-current = 105 A\nsheet1/overload-from = 5 s\nsheet1/overload-to = 30 s\nbank/overload-current = 120.0 A\nbank/overload-steady = yes\nbank/overload-opened = yes\n"
	for _, r := range []struct {
		name   string
		layout bank.Layout
		check  *Check
		part   string
		lines  string
		want   string
		from   string
	}{
		{"absorption", fourInSeries, chargerSettings, "charger1", chargerCommon + "charger1/absorption = 58.5 V", "between 56 V and 58.1 V", "hand: 4 × 14.0, and 58.4/1.005 = 58.109 down to a tenth"},
		{"torque", twoByTwo, torque, "b1.p", window8to10 + wrenchInDate + "b1.p/torque-set = 7.6 N.m, w1", "9 N.m", "hand: the middle of 8 to 10"},
		{"charger", fourInSeries, chargerFits, "charger1", oneString + "charger1/current-max = 80 A\ncharger1/voltage-min = 50 V\ncharger1/voltage-max = 60 V", "50 A", "hand: one string takes all of it"},
		{"fuse", fourInSeries, fuseSize, "fuse.main", fusedLead + "fuse.main/rating = 150 A\nbank/design-current = 140 A", "175 A", "NEC 240.6(A): the next size from 1.25 × 140 = 175"},
		{"joining lead", pair, joinCurrent, "gA", joinSheet + "b2/gap-voltage = 56.0 mV", "2.86 mOhm", "hand: (56 + 0.58) mV/10 A − 2.8 mΩ = 2.858, upward"},
		{"cable", fourInSeries, cableTerminalCheck, "lead.p", lead75 + "cable1/size = 2/0 AWG\ncable1/standard = ASTM B258\nbank/design-current = 141 A", "140 A", "hand: 175/1.25 after NEC 690.8(B)"},
		{"protection opens late", fourInSeries, overloadTrip, "bank", overloaded + "bank/overload-time = 60 s", "opens too late", "hand: 59 > 30; the maker's word does not shorten it"},
		{"protection opens early", fourInSeries, overloadTrip, "bank", overloaded + "bank/overload-time = 2 s", "keep the loads below", "hand: 3 < 5"},
		{"inverter still on", fourInSeries, precharge, "switch", prechargeCommon + "bank/total-voltage = 53.20 V\ninverter1/off = no\nswitch/precharge-left = 20.00 V, m1", "Switch Inverter", "hand: it holds the volts there"},
		{"a slip in the cut-off", fourInSeries, inverterFits, "inverter1", "inverter1/dc-min = 40 V\ninverter1/dc-max = 60 V\ninverter1/cut-off = 10.5 V", "Read the cut-off", "hand: 10.5 < 9.3 · 4 = 37.2, where every protection is open"},
		{"a slip by the sheet", fourInSeries, inverterFits, "inverter1", "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/under-voltage = 2.5 V\ninverter1/dc-min = 41 V\ninverter1/dc-max = 60 V\ninverter1/cut-off = 39.9 V", "Read the cut-off", "boundary: 39.9 < 4 · 4 · 2.5 = 40"},
		{"an inverter of another bank", fourInSeries, inverterFits, "inverter1", "inverter1/dc-min = 50 V\ninverter1/dc-max = 60 V\ninverter1/cut-off = 46 V", "Choose an inverter", "hand: 46 is a good cut-off, 50 > 46"},
		{"charge current", fourInSeries, chargeRate, "bank", oneString + "bank/charge-current = 60 A\nb1/charge-temperature = 20 C\nb1/sensor = own\n" + others, "50", "hand: one string takes all of it, 50 A at most"},
	} {
		var said []string
		for _, x := range judged(t, fixture(t, r.layout, r.lines), r.check, r.part) {
			if v := x.Verdict(); v == finding.Fail || v == finding.CantTell {
				said = append(said, strings.ReplaceAll(say.Voice{}.Say(x.Next()), "\u00a0", " "))
			}
		}
		if all := strings.Join(said, " | "); !strings.Contains(all, r.want) {
			t.Errorf("%s: %q, want %q (%s)", r.name, all, r.want, r.from)
		}
	}
}
