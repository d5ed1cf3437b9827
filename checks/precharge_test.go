package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

const prechargeCommon = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
	sheet1/capacity = 100 Ah
	sheet1/discharge-max = 100 A
	inverter1/power = 3000 W
	m1/measures = V
	m1/percent = 0.5
	m1/counts = 1
`

// Four in series of 100 Ah: 4 × 200/100 = 8 mΩ. With ±(0.5 % + 1) a reading of
// 0.50 V is known to 0.0125 V.
func TestPrecharge(t *testing.T) {
	off := prechargeCommon + "inverter1/off = yes\nbank/total-voltage = 53.20 V\n"
	walk(t, fourInSeries, precharge, off, []row{
		{"little left", "switch/precharge-left = 0.50 V, m1", "switch", finding.Pass, "hand: 0.5125 ≤ 2; 0.5125/0.008 = 64 A ≤ 100 A"},
		{"above 2 V", "switch/precharge-left = 2.10 V, m1", "switch", finding.Fail, "hand: 2.10 − 0.0205 > 2, which is below 5 % of 53.2"},
		{"the rush alone is too much", "switch/precharge-left = 1.50 V, m1", "switch", finding.Fail, "hand: 1.4825/0.008 = 185 A > 100 A"},
		{"the rush, near its limit", "switch/precharge-left = 0.80 V, m1", "switch", finding.CantTell, "hand: 0.786 … 0.814 V, 98 … 102 A about 100 A"},
		{"the maker's trip is higher", "sheet1/short-trip = 400 A\nswitch/precharge-left = 1.50 V, m1", "switch", finding.Pass, "hand: 1.5175/0.008 = 190 A ≤ 400 A"},
		{"above the maker's trip", "sheet1/short-trip = 150 A\nswitch/precharge-left = 1.50 V, m1", "switch", finding.Fail, "hand: 1.4825/0.008 = 185 A > 150 A"},
		{"near 2 V", "sheet1/short-trip = 400 A\nswitch/precharge-left = 2.00 V, m1", "switch", finding.CantTell, "boundary: 2.00 ± 0.02"},
		{"leads limit the rush", "lead.p/lug-to-lug = 4 mOhm\nlead.n/lug-to-lug = 4 mOhm\nswitch/precharge-left = 1.50 V, m1", "switch", finding.Pass, "hand: 1.5175/0.016 = 95 A"},
		{"probes the other way round", "switch/precharge-left = -2.10 V, m1", "switch", finding.Fail, "hand: the size counts"},
		{"not read", "", "switch", finding.ToDo, "boundary: missing is not zero"},
	})
	// Leads of 5 m of 50 mm² each, annealed copper at 20 °C (IEC 60028):
	// 10/58/50 = 3.448 mΩ, so 1.5175/11.448 mΩ = 132.55 A at most.
	const leads = "cable1/size = 50 mm2\ncable1/standard = IEC 60228\nlead.p/cable = cable1\nlead.n/cable = cable1\nlead.p/length = 5 m\nlead.n/length = 5 m\nswitch/precharge-left = 1.50 V, m1\n"
	walk(t, fourInSeries, precharge, off+leads, []row{
		{"cold leads limit the rush", "sheet1/short-trip = 132.6 A", "switch", finding.Pass, "boundary: 132.55 ≤ 132.6"},
		{"cold leads, not enough", "sheet1/short-trip = 132.4 A", "switch", finding.CantTell, "boundary: 1.4825/11.448 mΩ = 129.5 A < 132.4 < 132.55"},
	})
	walk(t, fourInSeries, precharge, prechargeCommon+"bank/total-voltage = 53.20 V\nswitch/precharge-left = 0.50 V, m1\n", []row{
		{"inverter state unknown", "", "switch", finding.CantTell, "boundary: missing is not off"},
		{"inverter on", "inverter1/off = no", "switch", finding.CantTell, "hand: a load holds the volts across the switch"},
		{"precharges itself, page named", "inverter1/precharges-itself = yes\ninverter1/page = p. 7", "bank", finding.NotNeeded, "common practice, no source: its manual says so"},
		{"precharges itself, no page", "inverter1/precharges-itself = yes", "switch", finding.ToDo, "boundary: a claim needs its page"},
		{"a second inverter does not", "inverter1/precharges-itself = yes\ninverter1/page = p. 7\ninverter2/power = 500 W\ninverter2/off = yes", "switch", finding.CantTell, "hand: read before the second one was off"},
	})
	walk(t, fourInSeries, precharge, "", []row{
		{"nobody said what is on the line", "", "switch", finding.ToDo, "boundary: not entered is not none"},
		{"nothing with capacitors", "switch/capacitors = no", "bank", finding.NotNeeded, "hand: nothing to fill"},
		{"two people, two answers", "switch/capacitors = no\nswitch/capacitors = yes", "switch", finding.CantTell, "hand: a conflict is never a no"},
	})
	const full = "bank/total-voltage = 53.20 V\n"
	const second = "inverter1/precharges-itself = yes\ninverter1/page = p. 7\ninverter2/power = 500 W\ninverter2/off = yes\n"
	const others = "b1/sheet = sheet1\nb2/sheet = sheet1\nb3/sheet = sheet1\nb4/sheet = sheet1\nsheet1/capacity = 100 Ah\nsheet1/discharge-max = 100 A\nm1/measures = V\nm1/percent = 0.5\nm1/counts = 1\nswitch/capacitors = yes\nbank/total-voltage = 53.20 V\n"
	walk(t, fourInSeries, precharge, "", []row{
		{"a second inverter does not fill itself", prechargeCommon + second + "bank/total-voltage = 53.20 V\nswitch/precharge-left = 0.50 V, m1", "switch", finding.Pass, "hand: the other one still rushes"},
		{"capacitors and no inverter entered", others + "switch/precharge-left = 0.50 V, m1", "switch", finding.CantTell, "hand: nobody said that it is off"},
		{"capacitors, off, none entered before", others + "inverter1/off = yes\nswitch/precharge-left = 0.50 V, m1", "switch", finding.Pass, "hand: judged as one inverter"},
		{"inverter state unknown, 20 V left", prechargeCommon + full + "switch/precharge-left = 20.00 V, m1", "switch", finding.Fail, "hand: 20 − 0.11 > 2, whoever was off"},
		{"inverter on, 20 V left", prechargeCommon + full + "inverter1/off = no\nswitch/precharge-left = 20.00 V, m1", "switch", finding.Fail, "hand: the inverter is the load that holds them"},
		{"20 V left, read before it was off", prechargeCommon + full + "switch/precharge-left = 20.00 V, m1\ninverter1/off = yes", "switch", finding.Fail, "hand: 20 − 0.11 > 2"},
		{"near the limit, inverter on", prechargeCommon + full + "inverter1/off = no\nswitch/precharge-left = 2.00 V, m1", "switch", finding.CantTell, "boundary: 2.00 ± 0.02, and with it on the volts prove nothing"},
		{"capacitors, none entered, 20 V left", others + "switch/precharge-left = 20.00 V, m1", "switch", finding.Fail, "hand: 20 − 0.11 > 2"},
		{"20 V left, the bank not read", prechargeCommon + "switch/precharge-left = 20.00 V, m1", "switch", finding.Fail, "hand: more than 2 V is too much for any bank"},
		{"1 V left, the bank not read", prechargeCommon + "switch/precharge-left = 1.00 V, m1", "switch", finding.ToDo, "boundary: below 2 V the 5 % of the bank may decide"},
		{"capacitors, nothing read", others, "switch", finding.ToDo, "boundary"},
	})
	walk(t, fourInSeries, precharge, off, []row{
		{"read 15 minutes ago", "switch/precharge-left = 0.50 V, m1, at -15m", "switch", finding.Pass, "boundary: our rule"},
		{"read 16 minutes ago", "switch/precharge-left = 0.50 V, m1, at -16m", "switch", finding.CantTell, "boundary: capacitors empty by themselves"},
		{"read 16 minutes ago, and much", "switch/precharge-left = 2.10 V, m1, at -16m", "switch", finding.Fail, "hand: capacitors that empty by themselves leave more, not less"},
		{"the main was closed just after", "switch/precharge-left = 0.50 V, m1, at -30h\nswitch/closed = yes", "switch", finding.CantTell, "hand: 30 h before it closed"},
		{"said to be off only afterwards", "switch/precharge-left = 0.50 V, m1\ninverter2/power = 500 W\ninverter2/off = yes", "switch", finding.CantTell, "hand: the second one may have held the volts"},
	})
	// Two of 100 Ah beside one another, 2 mΩ each: 1 mΩ. By equal leads of 0.5 mΩ
	// one of 4.5 to 5.5 mΩ takes 5/11 to 6/11 of the rush.
	walk(t, bank.New(1, 2, bank.JoinStrings, bank.EqualLeads), precharge, "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\nb1/resistance = 5.0 mOhm\nb2/resistance = 5.0 mOhm\ninverter1/off = yes\nbank/total-voltage = 12.80 V\nm1/measures = V\nm1/percent = 0.5\nm1/counts = 1\nswitch/precharge-left = 0.10 V, m1\n", []row{
		{"two beside, within", "sheet1/discharge-max = 61 A", "switch", finding.Pass, "hand: 0.1105/1 mΩ · 6/11 = 60.3 A ≤ 61"},
		{"two beside, perhaps too much", "sheet1/discharge-max = 50 A", "switch", finding.CantTell, "hand: 0.0895/1 mΩ · 5/11 = 40.7 A < 50 < 60.3"},
		{"two beside, too much", "sheet1/discharge-max = 38 A", "switch", finding.Fail, "hand: 38 < 40.7 A at least"},
	})
	one := bank.New(1, 1, bank.JoinStrings, bank.OneEnd)
	walk(t, one, precharge, "b1/sheet = sheet1\nsheet1/capacity = 100 Ah\nsheet1/discharge-max = 5000 A\ninverter1/off = yes\nbank/total-voltage = 12.80 V\nm1/measures = V\nm1/percent = 0.5\nm1/counts = 1\n", []row{
		{"12.8 V bank, 1.5 V left", "switch/precharge-left = 1.50 V, m1", "switch", finding.Fail, "hand: 5 % of 12.8 is 0.64 V; 2 V would be 16 %"},
		{"12.8 V bank, 0.62 V left", "switch/precharge-left = 0.62 V, m1", "switch", finding.Pass, "hand: 0.62 + 0.0131 ≤ 0.64"},
		{"12.8 V bank, at the limit", "switch/precharge-left = 0.64 V, m1", "switch", finding.CantTell, "boundary: 0.64 ± 0.013 about 0.64"},
	})
}

// Who waits a minute has nothing to override; a reading too near to tell may be
// overridden by name.
func TestTooMuchLeftIsNotOverridden(t *testing.T) {
	const on = prechargeCommon + "bank/total-voltage = 53.20 V\n"
	for _, r := range []struct {
		name, lines string
		barred      bool
		from        string
	}{
		{"20 V", on + "switch/precharge-left = 20.00 V, m1", true, "hand: 20 − 0.11 > 2"},
		{"the rush alone", on + "inverter1/off = yes\nswitch/precharge-left = 1.50 V, m1", true, "hand: 1.4825/0.008 = 185 A > 100 A"},
		{"near 2 V", on + "sheet1/short-trip = 400 A\ninverter1/off = yes\nswitch/precharge-left = 2.00 V, m1", false, "boundary: 2.00 ± 0.02"},
		{"not read", on, false, "boundary: nothing was found"},
	} {
		if h := hold(t, fixture(t, fourInSeries, r.lines), "main", "switch"); h.Barred.Empty() == r.barred || h.Passed() {
			t.Errorf("%s: barred %v, want %v (%s)", r.name, !h.Barred.Empty(), r.barred, r.from)
		}
	}
}
