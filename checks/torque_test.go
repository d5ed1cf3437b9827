package checks

import (
	"testing"

	"lugmark/core/finding"
)

const torqueSheet = `
	b1/sheet = sheet1
	b2/sheet = sheet1
	b3/sheet = sheet1
	b4/sheet = sheet1
`

const window8to10 = torqueSheet + `
	sheet1/torque-min = 8 N.m
	sheet1/torque-max = 10 N.m
`

const wrenchInDate = `
	w1/max = 25 N.m
	w1/percent = 4 %
	w1/due = 2027-03-01
`

func TestTorque(t *testing.T) {
	walk(t, twoByTwo, torque, "", []row{
		{"middle of the window", window8to10 + wrenchInDate + "b1.p/torque-set = 9 N.m, w1", "b1.p", finding.Pass, "hand: 8.64 … 9.36"},
		{"narrow window, 4 %", torqueSheet + "sheet1/torque-min = 8.5 N.m\nsheet1/torque-max = 9.5 N.m\n" + wrenchInDate + "b1.p/torque-set = 9 N.m, w1", "b1.p", finding.Pass, "hand: 9 × 4 % = 0.36 lies in 8.5 … 9.5"},
		{"narrow window, 6 %", torqueSheet + "sheet1/torque-min = 8.5 N.m\nsheet1/torque-max = 9.5 N.m\nw1/max = 10 N.m\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "hand: 8.46 … 9.54; ISO 6789-1:2017, largest torque up to 10 N·m"},
		{"low end touches", window8to10 + "w1/max = 25 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 8.3334 N.m, w1", "b1.p", finding.Pass, "hand: 8.3334 × 0.96 = 8.00006"},
		{"low end crosses", window8to10 + "w1/max = 25 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 8.33 N.m, w1", "b1.p", finding.CantTell, "hand: 7.997"},
		{"on the limit", window8to10 + wrenchInDate + "b1.p/torque-set = 8 N.m, w1", "b1.p", finding.CantTell, "boundary: 7.68 … 8.32"},
		{"wholly below", window8to10 + wrenchInDate + "b1.p/torque-set = 7.6 N.m, w1", "b1.p", finding.Fail, "hand: 7.6 × 1.04 = 7.904 < 8"},
		{"wholly above", window8to10 + wrenchInDate + "b1.p/torque-set = 10.5 N.m, w1", "b1.p", finding.Fail, "hand: 10.5 × 0.96 = 10.08 > 10"},
		{"inch pounds", window8to10 + wrenchInDate + "b1.p/torque-set = 80 in.lb, w1", "b1.p", finding.Pass, "NIST SP 811: 80 in·lb = 9.0388 N·m"},
		{"the wrench of the job", window8to10 + wrenchInDate + "bank/use-torque = w1\nb1.p/torque-set = 8.40 N.m", "b1.p", finding.Pass, "hand: 8.40 × 0.96 = 8.064; 6 % would give 7.896"},
		{"no wrench entered", window8to10 + "b1.p/torque-set = 8.40 N.m", "b1.p", finding.CantTell, "hand: the wider class, 7.896"},
		{"no wrench entered, in the middle", window8to10 + "b1.p/torque-set = 9 N.m", "b1.p", finding.CantTell, "boundary: in date is not known"},
		{"a voltmeter is no wrench", window8to10 + "m1/measures = V\nm1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, m1", "b1.p", finding.CantTell, "boundary: a meter for volts has no torque"},
		{"no wrench entered, far outside", window8to10 + "b1.p/torque-set = 12 N.m", "b1.p", finding.Fail, "hand: 12 × 0.94 = 11.28 > 10 with any wrench"},
		{"no date of the wrench", window8to10 + "w1/max = 25 N.m\nw1/percent = 4 %\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: in date is not known"},
		{"largest torque not entered", window8to10 + "w1/percent = 4 %\nw1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: a fifth of it is not known"},
		{"at the largest torque of the wrench", window8to10 + "w1/max = 9 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.Pass, "hand: 9 × 6 % in 8 … 10"},
		{"6 %, low end touches", window8to10 + "w1/max = 10 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 8.55 N.m, w1", "b1.p", finding.Pass, "boundary: 8.55 × 0.94 = 8.037"},
		{"6 %, low end crosses", window8to10 + "w1/max = 10 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 8.48 N.m, w1", "b1.p", finding.CantTell, "boundary: 8.48 × 0.94 = 7.971; up to 10 N·m the wider class"},
		{"4 % from just above 10 N·m on", window8to10 + "w1/max = 10.5 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 8.40 N.m, w1", "b1.p", finding.Pass, "boundary: 8.40 × 0.96 = 8.064"},
		{"above the largest torque of the wrench", window8to10 + "w1/max = 8.5 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: 9 > 8.5"},
		{"window the wrong way round", torqueSheet + "sheet1/torque-min = 10 N.m\nsheet1/torque-max = 8 N.m\n" + wrenchInDate + "b1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: a slip, no fault of the bolt"},
		{"out of date", window8to10 + "w1/max = 25 N.m\nw1/percent = 4 %\nw1/due = 2026-11-24\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: due the day before"},
		{"due today", window8to10 + "w1/max = 25 N.m\nw1/percent = 4 %\nw1/due = 2026-11-25\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.Pass, "boundary: the day itself is in date"},
		{"a fifth of the range", window8to10 + "w1/max = 45 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.Pass, "boundary: 9 is not below 0.2 × 45"},
		{"below a fifth of the range", window8to10 + "w1/max = 46 N.m\nw1/due = 2027-03-01\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "hand: 0.2 × 46 = 9.2"},
		{"5000 clicks", window8to10 + wrenchInDate + "w1/clicks = 5000\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.Pass, "boundary: 5000 ≤ 5000"},
		{"5001 clicks", window8to10 + wrenchInDate + "w1/clicks = 5001\nb1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: 5001 > 5000"},
		{"one printed torque", torqueSheet + "sheet1/torque-nominal = 9 N.m\n" + wrenchInDate + "b1.p/torque-set = 9.5 N.m, w1", "b1.p", finding.Pass, "hand: 9.12 … 9.88 in 8.1 … 9.9"},
		{"one printed torque, too far", torqueSheet + "sheet1/torque-nominal = 9 N.m\n" + wrenchInDate + "b1.p/torque-set = 10.4 N.m, w1", "b1.p", finding.Fail, "hand: 9.984 > 9.9"},
		{"only a largest torque", torqueSheet + "sheet1/torque-max = 10 N.m\n" + wrenchInDate + "b1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "hand: in 8 … 10, not confirmed"},
		{"above the largest torque", torqueSheet + "sheet1/torque-max = 10 N.m\n" + wrenchInDate + "b1.p/torque-set = 11 N.m, w1", "b1.p", finding.Fail, "hand: 10.56 > 10"},
		{"no torque on the sheet", torqueSheet + wrenchInDate + "b1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: there is no default torque"},
		{"no sheet", wrenchInDate + "b1.p/torque-set = 9 N.m, w1", "b1.p", finding.CantTell, "boundary: there is no default torque"},
		{"not tightened", window8to10 + wrenchInDate, "b1.p", finding.ToDo, "boundary: missing is not zero"},
		{"the minus post has its own bolt", window8to10 + wrenchInDate + "b1.p/torque-set = 9 N.m, w1", "b1.n", finding.ToDo, "hand: one bolt each"},
	})
}
