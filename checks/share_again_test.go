package checks

import (
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// The clamp's gain is in no share; one count of 0.01 A stays: U of a share of
// 100 A is 0.0001, and of s/s0 with s0 = 0.45 it is √(1 + 1.44)·0.0001/0.45 =
// 0.00035.
func TestShareAgain(t *testing.T) {
	const common = milliamps + capacitySheet + "bank/design-current = 100 A\nsheet1/discharge-max = 80 A\n"
	at := func(visit, a, b string) string {
		return visit + ": bank/clamp-zeroed = yes\n" + visit + ": sA/share-current = " + a + " A, m2\n" + visit + ": sB/share-current = " + b + " A, m2\n" + visit + ": bank/share-total = 100.00 A, m2\n"
	}
	was := at("v1", "45.00", "55.00")
	three := func(visit, a, b, c string) string {
		return at(visit, a, b) + visit + ": sC/share-current = " + c + " A, m2\n"
	}
	walk(t, bank.New(2, 3, bank.JoinStrings, bank.OneEnd), shareAgain, common+"b5/sheet = sheet1\nb6/sheet = sheet1\n"+three("v1", "40.00", "30.00", "30.00"), []row{
		{"nearly a fifth less", three("v2", "32.20", "33.90", "33.90"), "bank", finding.Pass, "hand: 0.322/0.40 = 0.805; the others 1.13"},
		{"a quarter less", three("v2", "30.00", "35.00", "35.00"), "bank", finding.Fail, "hand: 0.30/0.40 = 0.75; the others 1.17; 1.17 to 1 is even enough"},
	})
	walk(t, twoByTwo, shareAgain, common, []row{
		{"nothing read today", was + "v2: bank/built-again = no", "bank", finding.ToDo, "a reading is never inherited"},
		{"no baseline", at("v2", "50.00", "50.00"), "bank", finding.CantTell, "no baseline: never Pass"},
		{"as it was", at("v1", "50.00", "50.00") + at("v2", "50.00", "50.00"), "bank", finding.Pass, "hand: 1.00"},
		{"somewhat more", was + at("v2", "53.90", "46.10"), "bank", finding.Pass, "hand: 0.539/0.45 = 1.1978 + 0.0004"},
		{"a fifth more", was + at("v2", "54.00", "46.00"), "bank", finding.CantTell, "boundary: 1.2000 ± 0.0004"},
		{"above", was + at("v2", "54.10", "45.90"), "bank", finding.Fail, "hand: 0.541/0.45 = 1.2022 − 0.0004; 1.18 to 1 is even enough"},
		{"uneven", at("v1", "50.00", "50.00") + at("v2", "56.00", "44.00"), "bank", finding.CantTell, "hand: 1.27 to 1, as on the first day"},
		{"very uneven", at("v1", "50.00", "50.00") + at("v2", "62.00", "38.00"), "bank", finding.Fail, "hand: 1.63 to 1, as on the first day"},
		{"more than it gives", at("v1", "50.00", "50.00") + at("v2", "82.00", "78.00"), "bank", finding.Fail, "hand: 82 − 0.83 > 80, as on the first day"},
		{"not zeroed today", was + "v2: bank/clamp-zeroed = no\nv2: sA/share-current = 45.00 A, m2\nv2: sB/share-current = 55.00 A, m2\nv2: bank/share-total = 100.00 A, m2", "bank", finding.CantTell, "the rule of the first day"},
		{"not zeroed then", "sA/share-current = 50.00 A, m2\nsB/share-current = 50.00 A, m2\nbank/share-total = 100.00 A, m2\n" + at("v2", "50.00", "50.00"), "bank", finding.CantTell, "no baseline: never Pass"},
		{"less than 40 % of the load", was + "v2: bank/clamp-zeroed = yes\nv2: sA/share-current = 18.00 A, m2\nv2: sB/share-current = 21.00 A, m2\nv2: bank/share-total = 39.00 A, m2", "bank", finding.CantTell, "hand: 39 < 40"},
		{"two people disagreed then", "sA/share-current = 70.00 A, m2\n" + at("v1", "50.00", "50.00") + at("v2", "50.00", "50.00"), "bank", finding.CantTell, "a baseline in conflict is none"},
	})
}
