package checks

import (
	"strings"
	"testing"

	"lugmark/core/finding"
)

const settingsAsLeft = `
	charger1/absorption = 28.4 V
	charger1/float = 27.0 V
	charger1/set-current = 20 A
	charger1/equalise = off
	charger1/temp-comp = off
	charger1/recover = off
	inverter1/cut-off = 22.0 V
`

// settingsAt is what a visit finds set, with some of it replaced.
func settingsAt(visit string, replace ...string) string {
	all := strings.NewReplacer("\n\tcharger1", "\n"+visit+": charger1", "\n\tinverter1/cut-off ", "\n"+visit+": inverter1/cut-off-seen ").Replace(settingsAsLeft)
	return strings.NewReplacer(replace...).Replace(all)
}

// Two in series: the charger may be set to 28.0 to 29.2 V, half a percent below.
func TestSettingsMoved(t *testing.T) {
	meant := "\nv2: charger1/change-meant = yes\n"
	walk(t, twoByTwo, settingsMoved, settingsAsLeft, []row{
		{"nothing read today", "v2: bank/built-again = no", "charger1", finding.ToDo, "a reading is never inherited"},
		{"as left", settingsAt("v2"), "charger1", finding.Pass, "equal"},
		{"as left, another zero", settingsAt("v2", "28.4 V", "28.40 V"), "charger1", finding.Pass, "28.40 is 28.4"},
		{"a tenth more", settingsAt("v2", "28.4 V", "28.5 V"), "charger1", finding.Fail, "boundary: equal"},
		{"equalise is on", settingsAt("v2", "equalise = off", "equalise = on"), "charger1", finding.Fail, "equal"},
		{"moved, others not read", "v2: charger1/float = 28.0 V", "charger1", finding.Fail, "any changed"},
		{"one not read", strings.Replace(settingsAt("v2"), "v2: charger1/recover = off", "", 1), "charger1", finding.ToDo, "boundary"},
		{"changed, and somebody says not on purpose", settingsAt("v2", "28.4 V", "28.5 V") + "\nv2: charger1/change-meant = no", "charger1", finding.Fail, "no note"},
		{"changed on purpose, borne", settingsAt("v2", "28.4 V", "28.8 V") + meant, "charger1", finding.Pass, "hand: 28.8 · 1.005 = 28.94 ≤ 29.2"},
		{"changed on purpose, too near", settingsAt("v2", "28.4 V", "29.2 V") + meant, "charger1", finding.CantTell, "hand: 29.2 · 1.005 > 29.2"},
		{"changed on purpose, too high", settingsAt("v2", "28.4 V", "29.4 V") + meant, "charger1", finding.Fail, "hand: 29.4 > 29.2"},
		{"equalise on, on purpose", settingsAt("v2", "equalise = off", "equalise = on") + meant, "charger1", finding.Fail, "no note makes a lead-acid profile good"},
		{"the purpose of the second visit does not excuse the third", settingsAt("v2") + meant + settingsAt("v3", "28.4 V", "28.5 V"), "charger1", finding.Fail, "a note is of its visit"},
		{"changed at the second visit, as left at the third", settingsAt("v2", "28.4 V", "28.8 V") + meant + settingsAt("v3", "28.4 V", "28.8 V"), "charger1", finding.Pass, "the latest earlier visit"},
		{"two people disagreed then", "charger1/float = 26.0 V\n" + settingsAt("v2"), "charger1", finding.CantTell, "a baseline in conflict is none"},
		{"cut-off as left", settingsAt("v2"), "inverter1", finding.Pass, "equal"},
		{"cut-off not read today", "v2: bank/built-again = no", "inverter1", finding.ToDo, "the plan is no reading"},
		{"cut-off lowered", settingsAt("v2", "22.0 V", "20.0 V"), "inverter1", finding.Fail, "equal"},
		{"lowered on purpose, plan as before", settingsAt("v2", "22.0 V", "20.0 V") + "\nv2: inverter1/change-meant = yes", "inverter1", finding.CantTell, "the bank is planned with 22 V"},
		{"lowered on purpose, too far", settingsAt("v2", "22.0 V", "18.0 V") + "\nv2: inverter1/cut-off = 18.0 V\nv2: inverter1/change-meant = yes", "inverter1", finding.Fail, "hand: 18 < 2 · 9.3"},
	})
	walk(t, twoByTwo, settingsMoved, "", []row{
		{"no baseline", settingsAt("v2"), "charger1", finding.CantTell, "no baseline: never Pass"},
		{"one without baseline", strings.Replace(settingsAsLeft, "charger1/recover = off", "", 1) + settingsAt("v2"), "charger1", finding.CantTell, "no baseline: never Pass"},
	})
}
