package bank

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// ids of links, written out by hand from the sketch of each bank: plus up, block
// numbers down string A then B, or along group A then B.
func TestLinks(t *testing.T) {
	tests := []struct {
		name   string
		layout Layout
		want   string
		from   string
	}{
		{"single block", New(1, 1, JoinStrings, OneEnd), "", "hand: nothing to join"},
		{"four in series", New(4, 1, JoinStrings, OneEnd),
			"b1.n~b2.p b2.n~b3.p b3.n~b4.p", "hand: three gaps between four blocks"},
		{"four side by side", New(1, 4, JoinStrings, OneEnd),
			"sA.p~sB.p sB.p~sC.p sC.p~sD.p sA.n~sB.n sB.n~sC.n sC.n~sD.n", "hand: three gaps, two rails"},
		{"2S2P strings", New(2, 2, JoinStrings, OneEnd),
			"b1.n~b2.p b3.n~b4.p sA.p~sB.p sA.n~sB.n", "hand"},
		{"2S2P groups", New(2, 2, JoinGroups, Diagonal),
			"b1.p~b2.p b1.n~b2.n b3.p~b4.p b3.n~b4.n gA.n~gB.p", "hand"},
		{"2S2P strings, bus bars", New(2, 2, JoinStrings, EqualLeads),
			"b1.n~b2.p b3.n~b4.p bar.p~sA.p bar.p~sB.p bar.n~sA.n bar.n~sB.n", "hand: a pair of leads per string"},
		{"2S2P groups, bus bars", New(2, 2, JoinGroups, EqualLeads),
			"b1.p~gA.p b2.p~gA.p b1.n~gA.n b2.n~gA.n b3.p~gB.p b4.p~gB.p b3.n~gB.n b4.n~gB.n gA.n~gB.p",
			"hand: a pair of leads per block, one link between the bars"},
		{"replaced block on top", Layout{Series: 2, Parallel: 1, Join: JoinStrings, Takeoff: OneEnd, Place: []string{"b5", "b2"}},
			"b2.p~b5.n", "hand: lower number first, whatever stands higher"},
		{"two blocks in series as groups", New(2, 1, JoinGroups, OneEnd), "gA.n~gB.p", "hand"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if err := tt.layout.Validate(); err != nil {
				t.Fatal(err)
			}
			var ids []string
			for _, k := range tt.layout.Links() {
				ids = append(ids, k.ID)
			}
			if got := strings.Join(ids, " "); got != tt.want {
				t.Errorf("links (%s)\n got %s\nwant %s", tt.from, got, tt.want)
			}
		})
	}
}

func TestValidate(t *testing.T) {
	good := New(2, 2, JoinStrings, OneEnd)
	with := func(change func(*Layout)) Layout {
		l := good
		l.Place = good.Blocks()
		change(&l)
		return l
	}
	tests := []struct {
		name   string
		layout Layout
		want   string // a piece of the sentence, or empty when it is a bank
	}{
		{"good", good, ""},
		{"largest", New(16, 16, JoinGroups, EqualLeads), ""},
		{"none in series", with(func(l *Layout) { l.Series = 0 }), "in series: enter 1 to 16"},
		{"17 in parallel", with(func(l *Layout) { l.Parallel = 17 }), "in parallel: enter 1 to 16"},
		{"no join", with(func(l *Layout) { l.Join = "" }), "strings or groups"},
		{"a place short", with(func(l *Layout) { l.Place = l.Place[:3] }), "needs 4 blocks. The list has 3."},
		{"no block", with(func(l *Layout) { l.Place[1] = "b0" }), "“b0” is not a block"},
		{"beyond the tape", with(func(l *Layout) { l.Place[1] = "b257" }), "“b257” is not a block"},
		{"leading zero", with(func(l *Layout) { l.Place[1] = "b02" }), "is not a block"},
		{"twice", with(func(l *Layout) { l.Place[1] = "b1" }), "Block 1 stands in two places"},
		{"unknown take-off", with(func(l *Layout) { l.Takeoff = "middle" }), "Take-off"},
		{"take-off at strings", with(func(l *Layout) { l.Takeoff = TakeoffAt("B", "A") }), ""},
		{"take-off beyond strings", with(func(l *Layout) { l.Takeoff = TakeoffAt("A", "C") }), "strings are A to B"},
		{"take-off at groups", with(func(l *Layout) { l.Join = JoinGroups; l.Takeoff = TakeoffAt("b2", "b3") }), ""},
		{"plus in the wrong group", with(func(l *Layout) { l.Join = JoinGroups; l.Takeoff = TakeoffAt("b3", "b4") }), "group A"},
	}
	for _, tt := range tests {
		err := tt.layout.Validate()
		switch {
		case tt.want == "" && err != nil:
			t.Errorf("%s: %v", tt.name, err)
		case tt.want != "" && (err == nil || !strings.Contains(err.Error(), tt.want)):
			t.Errorf("%s: got %v, want …%s…", tt.name, err, tt.want)
		}
	}
}

func TestJSON(t *testing.T) {
	for _, raw := range []string{
		`{"series":2,"parallel":2,"join":"strings","takeoff":"one-end","place":["b1","b2","b3","b4"]}`,
		`{"series":1,"parallel":2,"join":"strings","takeoff":["A","B"],"place":["b1","b2"]}`,
	} {
		var l Layout
		if err := json.Unmarshal([]byte(raw), &l); err != nil {
			t.Fatal(err)
		}
		if err := l.Validate(); err != nil {
			t.Error(err)
		}
		back, err := json.Marshal(l)
		if err != nil || string(back) != raw {
			t.Errorf("came back as %s, %v", back, err)
		}
	}
	for _, raw := range []string{`["A"]`, `3`, `["A","B","C"]`, `{}`} {
		var to Takeoff
		if err := json.Unmarshal([]byte(raw), &to); err == nil {
			t.Errorf("take-off %s was read as %q", raw, to)
		}
	}
}

func TestLevels(t *testing.T) {
	// hand: three blocks high; each block lowers the level by one.
	got := New(3, 1, JoinStrings, OneEnd).Levels()
	want := map[string]int{
		"lead.p": 3, "sA.p": 3, "b1.p": 3, "b1.n": 2, "b2.p": 2, "b2.n": 1, "b3.p": 1, "b3.n": 0, "sA.n": 0, "lead.n": 0,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %v\nwant %v", got, want)
	}
	// hand: group A is the upper row.
	got = New(2, 2, JoinGroups, OneEnd).Levels()
	for id, level := range map[string]int{"gA.p": 2, "gA.n": 1, "gB.p": 1, "gB.n": 0, "b2.p": 2, "b3.p": 1} {
		if got[id] != level {
			t.Errorf("groups: %s at level %d, want %d", id, got[id], level)
		}
	}
}

func TestTakeoffColumns(t *testing.T) {
	tests := []struct {
		name        string
		layout      Layout
		plus, minus int
		links       []int // column of each link between groups
	}{
		{"strings, one end", New(2, 3, JoinStrings, OneEnd), 0, 0, nil},
		{"strings, diagonal", New(2, 3, JoinStrings, Diagonal), 0, 2, nil},
		{"strings, chosen", New(2, 3, JoinStrings, TakeoffAt("B", "C")), 1, 2, nil},
		{"groups, one end", New(3, 2, JoinGroups, OneEnd), 0, 0, []int{0, 0}},
		{"groups, diagonal, odd rows end far", New(3, 2, JoinGroups, Diagonal), 0, 1, []int{1, 0}},
		{"groups, diagonal, even rows come back", New(2, 3, JoinGroups, Diagonal), 0, 0, []int{2}},
		{"groups, chosen", New(2, 3, JoinGroups, TakeoffAt("b2", "b6")), 1, 2, []int{2}},
	}
	for _, tt := range tests {
		plus, minus, ok := tt.layout.LeadColumns()
		if !ok || plus != tt.plus || minus != tt.minus {
			t.Errorf("%s: leads at %d and %d, %v; want %d and %d", tt.name, plus, minus, ok, tt.plus, tt.minus)
		}
		for i, want := range tt.links {
			if got, ok := tt.layout.GroupLinkColumn(i); !ok || got != want {
				t.Errorf("%s: link %d at %d, %v; want %d", tt.name, i, got, ok, want)
			}
		}
	}
	if _, _, ok := New(2, 2, JoinStrings, EqualLeads).LeadColumns(); ok {
		t.Error("bus bars have no lead column")
	}
}

func TestShorts(t *testing.T) {
	strs, groups := New(2, 2, JoinStrings, OneEnd), New(2, 2, JoinGroups, OneEnd)
	tests := []struct {
		name        string
		layout      Layout
		link, other string
		want        bool
	}{
		// hand: with both rails on, points of one level are at one potential.
		{"inner link stays", strs, "sA.p~sB.p", "b1.n~b2.p", false},
		{"tie across at one level", strs, "sA.p~sB.p", "b1.n~b3.n", false},
		{"tie across one block", strs, "sA.p~sB.p", "b1.n~b4.n", true},
		{"tie from top to bottom", strs, "sA.n~sB.n", "b1.p~b4.n", true},
		{"series left on inside a group", groups, "b1.p~b2.p", "b1.n~b2.p", true},
		{"series left on, other way round", groups, "b1.p~b2.p", "b1.p~b2.n", true},
		{"series left on, minus side link", groups, "b1.n~b2.n", "b1.n~b2.p", true},
		{"link between groups", groups, "b1.p~b2.p", "b2.n~b3.p", false},
		{"not a parallel link", groups, "gA.n~gB.p", "b1.n~b2.p", false},
	}
	for _, tt := range tests {
		if got := tt.layout.Shorts(tt.link, tt.other); got != tt.want {
			t.Errorf("%s: Shorts(%s, %s) = %v", tt.name, tt.link, tt.other, got)
		}
	}
	// hand: the pair b1, b2 has two unlike pairs of posts.
	if got := groups.SeriesBeside("b1.p~b2.p"); !reflect.DeepEqual(got, []string{"b1.p~b2.n", "b1.n~b2.p"}) {
		t.Errorf("beside in a group: %v", got)
	}
	if got := New(1, 3, JoinStrings, EqualLeads).Beside("bar.p~sB.p"); !reflect.DeepEqual(got, []string{"sB", "sA", "sC"}) {
		t.Errorf("beside on a bar: %v", got)
	}
}

func drawLayout(t *rapid.T) Layout {
	return New(
		rapid.IntRange(1, 16).Draw(t, "series"),
		rapid.IntRange(1, 16).Draw(t, "parallel"),
		rapid.SampledFrom([]Join{JoinStrings, JoinGroups}).Draw(t, "join"),
		rapid.SampledFrom([]Takeoff{OneEnd, Diagonal, EqualLeads}).Draw(t, "takeoff"))
}

func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLayout(t)
		s, p := l.Series, l.Parallel
		links := l.Links()
		gaps := p - 1 // between neighbours on one rail
		if l.Bars() {
			gaps = p // a lead per branch
		}
		want := p*(s-1) + 2*gaps
		if l.Join == JoinGroups {
			want = s*2*gaps + s - 1
		}
		if len(links) != want {
			t.Fatalf("%d links, want %d", len(links), want)
		}
		seen := map[string]bool{}
		ids := append(append(l.Blocks(), l.Posts()...), l.Joints()...)
		for _, u := range l.Units() {
			ids = append(ids, u.ID, u.ID+".p", u.ID+".n")
		}
		for _, k := range links {
			ids = append(ids, k.ID)
			if k.ID != LinkID(k.To, k.From) || k.ID != k.From+"~"+k.To {
				t.Fatalf("%s is not made of its ends", k.ID)
			}
			found, ok := l.Link(k.ID)
			if !ok || found != k {
				t.Fatalf("%s found as %v", k.ID, found)
			}
		}
		for _, id := range ids {
			if seen[id] {
				t.Fatalf("%s stands twice", id)
			}
			seen[id] = true
			if _, ok := PartKind(id); !ok || !Exists(l, id) {
				t.Fatalf("%s does not exist", id)
			}
			if Name(id).Key == nameUnknown.Key {
				t.Fatalf("%s has no name", id)
			}
		}
		// A series link joins one level; a parallel link joins one level too.
		levels := l.Levels()
		for _, k := range links {
			a, okA := levels[k.From]
			b, okB := levels[k.To]
			if !okA || !okB || a != b {
				t.Fatalf("%s joins level %d to %d", k.ID, a, b)
			}
		}
	})
}

// What would be shorted is never part of the drawing, or no bank could be built.
func TestShortsIsNeverDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := New(
			rapid.IntRange(1, 3).Draw(t, "series"),
			rapid.IntRange(1, 3).Draw(t, "parallel"),
			rapid.SampledFrom([]Join{JoinStrings, JoinGroups}).Draw(t, "join"),
			rapid.SampledFrom([]Takeoff{OneEnd, EqualLeads}).Draw(t, "takeoff"))
		for _, k := range l.Links() {
			for _, id := range l.SeriesBeside(k.ID) {
				if Exists(l, id) {
					t.Fatalf("%s is drawn and would be shorted by %s", id, k.ID)
				}
			}
			for _, other := range l.Links() {
				if l.Shorts(k.ID, other.ID) {
					t.Fatalf("%s and %s are both drawn and short", k.ID, other.ID)
				}
			}
		}
	})
}
