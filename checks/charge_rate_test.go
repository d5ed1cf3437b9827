package checks

import (
	"strings"
	"testing"

	"lugmark/core/bank"
	"lugmark/core/finding"
)

// One string of two, so each block takes the whole current; 100 Ah; a block's
// own sensor, U = 3 K.
func TestChargeRate(t *testing.T) {
	alone := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
	const sheets = "b1/sheet = sheet1\nb2/sheet = sheet1\nsheet1/capacity = 100 Ah\n"
	at := func(temp, amps string) string {
		return sheets + "b1/charge-temperature = " + temp + "\nb1/sensor = own\nb2/charge-temperature = 25 C\nb2/sensor = own\nbank/charge-current = " + amps + "\n"
	}
	walk(t, alone, chargeRate, "", []row{
		{"mild", at("25 C", "50 A"), "bank", finding.Pass, "boundary: 0.5 · 100 = 50 A"},
		{"mild, more", at("25 C", "50.1 A"), "bank", finding.Fail, "boundary: above 0.5 C at 22 … 28 °C"},
		{"the maker allows more", "sheet1/charge-max = 80 A\n" + at("25 C", "80 A"), "bank", finding.Pass, "hand: the maker's figure replaces 0.5 C"},
		{"the maker allows less", "sheet1/charge-max = 30 A\n" + at("25 C", "31 A"), "bank", finding.Fail, "hand: 31 > 30"},
		{"18 °C", at("18 C", "50 A"), "bank", finding.CantTell, "hand: 15 is 0.2 C, 21 is 0.5 C"},
		{"18.1 °C", at("18.1 C", "50 A"), "bank", finding.Pass, "hand: 15.1 … is above 15"},
		{"12 °C, 0.1 C", at("12 C", "10 A"), "bank", finding.Pass, "hand: 9 °C is 0.1 C = 10 A"},
		{"12 °C, 0.2 C", at("12 C", "20 A"), "bank", finding.CantTell, "hand: 9 °C is 10 A, 15 °C is 20 A"},
		{"12 °C, above 0.2 C", at("12 C", "21 A"), "bank", finding.Fail, "hand: 21 > 20 at 15 °C"},
		{"5 °C, 0.1 C", at("5 C", "10 A"), "bank", finding.Pass, "hand: 2 … 8 °C is 0.1 C"},
		{"5 °C, and the maker's one figure", "sheet1/charge-max = 80 A\n" + at("5 C", "50 A"), "bank", finding.Fail, "hand: one figure without a temperature lifts nothing in the cold"},
		{"2 °C", at("2 C", "1 A"), "bank", finding.CantTell, "hand: −1 °C allows none, 5 °C allows 10 A"},
		{"−4 °C", at("-4 C", "1 A"), "bank", finding.Fail, "hand: −1 °C allows none"},
		{"43 °C", at("43 C", "50 A"), "bank", finding.CantTell, "hand: 46 °C is 0.2 C, 40 °C is 0.5 C"},
		{"43 °C, 0.2 C", at("43 C", "20 A"), "bank", finding.Pass, "hand: 46 °C is 0.2 C"},
		{"59 °C", at("59 C", "1 A"), "bank", finding.Fail, "hand: 56 °C is above 55"},
		{"no temperature", sheets + "bank/charge-current = 10 A", "bank", finding.ToDo, "boundary: unknown allows nothing"},
		{"no plan", sheets + "b1/charge-temperature = 25 C\nb1/sensor = own", "bank", finding.ToDo, "boundary"},
		{"zero is no plan", at("25 C", "0 A"), "bank", finding.CantTell, "boundary: 0 A charges nothing"},
		{"no capacity", strings.Replace(at("25 C", "10 A"), "sheet1/capacity = 100 Ah\n", "", 1), "bank", finding.ToDo, "boundary"},
		{"the firm is stricter", "house/charge-rate.current = 20 A\n" + at("25 C", "21 A"), "bank", finding.Fail, "hand: 21 > 20"},
		{"the firm is looser, frozen", "house/charge-rate.current = 80 A\nsheet1/charge-max = 100 A\n" + at("-20 C", "60 A"), "bank", finding.Fail, "hand: −17 °C allows none; no rule of a firm lifts that"},
		{"the firm is looser, cold", "house/charge-rate.current = 80 A\nsheet1/charge-max = 100 A\n" + at("5 C", "60 A"), "bank", finding.Fail, "hand: 2 … 8 °C is 0.1 · 100 = 10 A"},
		{"the charger is set above the plan", "charger1/set-current = 30 A\n" + at("5 C", "10 A"), "bank", finding.Fail, "hand: a charger gives what it is set to; 30 > 10 A at 2 … 8 °C"},
		{"the charger is set as planned", "charger1/set-current = 10 A\n" + at("5 C", "10 A"), "bank", finding.Pass, "hand: 0.1 · 100 = 10 A"},
		{"the charger is set below the plan", "charger1/set-current = 5 A\n" + at("5 C", "11 A"), "bank", finding.Fail, "hand: 11 > 10"},
		{"two chargers", "charger1/set-current = 30 A\ncharger2/set-current = 45 A\nsheet1/charge-max = 50 A\n" + at("25 C", "30 A"), "bank", finding.Fail, "hand: 30 + 45 = 75 > 50"},
		{"two chargers, within", "charger1/set-current = 20 A\ncharger2/set-current = 30 A\n" + at("25 C", "30 A"), "bank", finding.Pass, "hand: 20 + 30 = 50 = 0.5 · 100"},
	})
}

// Two strings on bus bars share alike, but unmeasured blocks differ by ±25 %:
// the better of two takes at most 1.25/(0.75 + 1.25) = 0.625 (hand), and less
// with the links between.
func TestChargeRateCountsTheLargestShare(t *testing.T) {
	const rest = joinSheet + "b1/charge-temperature = 25 C\nb1/sensor = own\n" + others
	walk(t, bank.New(2, 2, bank.JoinStrings, bank.EqualLeads), chargeRate, rest, []row{
		{"well below", "bank/charge-current = 80 A", "bank", finding.Pass, "hand: 0.625 · 80 = 50 at most"},
		{"between", "bank/charge-current = 95 A", "bank", finding.CantTell, "hand: half is 47.5, the larger share may be above 50"},
		{"into one string alone", "charge1/target = sA\nbank/charge-current = 51 A", "bank", finding.Fail, "hand: one string takes all of it; 51 > 0.5 · 100"},
		{"far above", "bank/charge-current = 150 A", "bank", finding.Fail, "hand: half of it is 75 A; the largest share is never below half"},
	})
}
