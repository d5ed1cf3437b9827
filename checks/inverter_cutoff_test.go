package checks

import (
	"testing"

	"lugmark/core/finding"
)

// Four in series of 100 Ah: 4 × (4 … 12 mΩ) and leads of 1 mΩ each; at 100 A
// the drop is 1.8 … 5.0 V, so with a fifth left 46.4 … 49.6 V remain of 51.4 V.
func TestInverterCutoff(t *testing.T) {
	const common = prechargeCommon + "bank/design-current = 100 A\n"
	const leads = "lead.p/lug-to-lug = 1 mOhm\nlead.n/lug-to-lug = 1 mOhm\nbank/lead-temperature = 75 C\n"
	walk(t, fourInSeries, inverterCutoffCheck, common+leads, []row{
		{"sheet silent, below all", "inverter1/cut-off = 37.1 V", "inverter1", finding.Fail, "hand: 9.3 · 4 = 37.2"},
		{"sheet silent, not below all", "inverter1/cut-off = 37.2 V", "inverter1", finding.CantTell, "boundary: 9.3 · 4 = 37.2"},
		{"sheet silent, between", "inverter1/cut-off = 42.0 V", "inverter1", finding.CantTell, "hand: 37.2 … 46.8"},
		{"sheet silent, just below the surest", "inverter1/cut-off = 46.7 V", "inverter1", finding.CantTell, "hand: 11.7 · 4 = 46.8"},
		{"at the maker's", "sheet1/under-voltage = 2.5 V\ninverter1/cut-off = 42.0 V", "inverter1", finding.Pass, "boundary: 4 · (4 · 2.5 + 0.5) = 42"},
		{"below the maker's", "sheet1/under-voltage = 2.5 V\ninverter1/cut-off = 41.9 V", "inverter1", finding.Fail, "boundary: 41.9 < 42"},
		{"highest that is surely not early", "sheet1/under-voltage = 2.5 V\ninverter1/cut-off = 46.4 V", "inverter1", finding.Pass, "boundary: 51.4 − 100 · 0.050 = 46.4"},
		{"perhaps early", "sheet1/under-voltage = 2.5 V\ninverter1/cut-off = 46.5 V", "inverter1", finding.CantTell, "boundary: 46.4 < 46.5 ≤ 49.6"},
		{"at what a good bank shows", "sheet1/under-voltage = 2.5 V\ninverter1/cut-off = 49.6 V", "inverter1", finding.CantTell, "boundary: 51.4 − 100 · 0.018 = 49.6"},
		{"surely early", "sheet1/under-voltage = 2.5 V\ninverter1/cut-off = 49.7 V", "inverter1", finding.Fail, "boundary: 49.7 > 49.6"},
		{"no cut-off entered", "", "inverter1", finding.ToDo, "boundary"},
	})
	const measured = "b1/resistance = 4 mOhm\nb2/resistance = 4 mOhm\nb3/resistance = 4 mOhm\nb4/resistance = 4 mOhm\n"
	walk(t, fourInSeries, inverterCutoffCheck, common+leads+measured, []row{
		{"sheet silent, above all", "inverter1/cut-off = 46.8 V", "inverter1", finding.Pass, "boundary: 11.7 · 4 = 46.8; 51.4 − 100 · 0.018 = 49.6"},
		{"sheet silent, not quite above all", "inverter1/cut-off = 46.7 V", "inverter1", finding.CantTell, "boundary: 46.7 < 46.8"},
	})
	walk(t, fourInSeries, inverterCutoffCheck, common, []row{
		{"too low whatever the leads", "inverter1/cut-off = 36 V", "inverter1", finding.Fail, "hand: 36 < 37.2"},
		{"leads unknown", "sheet1/under-voltage = 2.5 V\ninverter1/cut-off = 42.0 V", "inverter1", finding.ToDo, "boundary: missing is not zero"},
	})
	walk(t, fourInSeries, inverterCutoffCheck, "", []row{{"no inverter", "", "bank", finding.NotNeeded, "hand"}})
}
