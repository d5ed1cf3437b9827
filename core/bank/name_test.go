package bank

import (
	"testing"

	"lugmark/core/say"
)

func TestNameAndKind(t *testing.T) {
	tests := []struct {
		id   string
		kind Kind
		name string
	}{
		{"b3", KindBlock, "Block 3"},
		{"b256", KindBlock, "Block 256"},
		{"b3.p", KindPost, "Block 3, plus post"},
		{"sA", KindString, "String A"},
		{"gB", KindGroup, "Group B"},
		{"sA.p", KindEnd, "String A, plus end"},
		{"gB.n", KindEnd, "Group B, minus end"},
		{"bar.n", KindBar, "Minus bus bar"},
		{"b1.n~b2.p", KindLink, "Link, block 1 minus to block 2 plus"},
		{"b1.n~b2.p~2", KindLink, "Link, block 1 minus to block 2 plus, conductor 2"},
		{"sA.p~sB.p", KindLink, "Link, string A plus to string B plus"},
		{"bar.p~sA.p", KindLink, "Link, plus bus bar to string A plus"},
		{"b1.n~b2.p@b1.n", KindJoint, "Joint at block 1 minus, link to block 2 plus"},
		{"b1.n~b2.p@b2.p", KindJoint, "Joint at block 2 plus, link to block 1 minus"},
		{"b1.n~b2.p~2@b1.n", KindJoint, "Joint at block 1 minus, link to block 2 plus, conductor 2"},
		{"bank", KindBank, "Bank"},
		{"stage.wire", KindStage, "Wire"},
		{"lead.p", KindLead, "Main lead, plus"},
		{"fuse.main", KindFuse, "Main fuse"},
		{"fuse.A", KindFuse, "Fuse of string A"},
		{"switch", KindSwitch, "Main switch"},
		{"charger1", KindCharger, "Charger"},
		{"inverter2", KindInverter, "Inverter 2"},
		{"m12", KindMeter, "Meter 12"},
		{"p1", KindPerson, "Person 1"},
		{"charge1", KindCharge, "Charge 1"},
		{"charge1.0192f0c1-7a00", KindSample, "Charge 1, sample"},
	}
	for _, tt := range tests {
		kind, ok := PartKind(tt.id)
		if !ok || kind != tt.kind {
			t.Errorf("%s is %q, %v; want %q", tt.id, kind, ok, tt.kind)
		}
		if got := say.Screen.Say(Name(tt.id)); got != tt.name {
			t.Errorf("%s is called %q, want %q", tt.id, got, tt.name)
		}
	}
}

func TestNoPart(t *testing.T) {
	for _, id := range []string{
		"", "b", "b0", "b01", "b257", "b1.x", "B1", "sQ", "sAA", "g", "lead", "lead.x", "fuse", "fuse.Q",
		"b2.p~b1.n", // higher number first
		"b1.n~b1.p", // a block on itself
		"b1~b2", "b1.n~b2.p~1", "b1.n~b2.p~10", "b1.n~b2.p@b3.p", "b1.n@b1.n",
		"sA.p~bar.p", "m", "m0", "meter1", "cable1.x", "charge1.", "charge1.a b", "stage.", "stage.Wire", "bank.p", "~", "@",
	} {
		if kind, ok := PartKind(id); ok {
			t.Errorf("%q was read as %s", id, kind)
		}
	}
}

func TestExists(t *testing.T) {
	l := New(2, 2, JoinStrings, OneEnd)
	for id, want := range map[string]bool{
		"b4": true, "b5": false, "b5.p": false, "sB": true, "sC": false, "sC.p": false, "gA": false, "bar.p": false,
		"b1.n~b2.p": true, "b1.n~b2.p~2": true, "b2.n~b3.p": false, "b1.p~b2.n": false, "b1.n~b2.p@b2.p": true,
		"sA.p~sB.p": true, "sA.p~sB.n": false, "sB.p~sC.p": false,
		"fuse.main": true, "fuse.B": true, "fuse.C": false, "m7": true, "charge3": true, "stage.match": true,
	} {
		if got := Exists(l, id); got != want {
			t.Errorf("Exists(%s) = %v", id, got)
		}
	}
	if Exists(New(4, 1, JoinStrings, OneEnd), "fuse.A") {
		t.Error("a single string has the main fuse only")
	}
}
