package job

import "testing"

// By hand: a stream of three events, and a seal in a stream of its own that saw
// the first two.
func TestMissingCountsWhatOthersSpeakOf(t *testing.T) {
	a, b := newMaker(t, 'a'), newMaker(t, 'b')
	first := []Event{a.add(1, "v1/b1/f", volts("1")), a.add(2, "v1/b1/f", volts("2")), a.add(3, "v1/b1/f", volts("3"))}
	sealed := b.add(4, "", seal(1, apply(t, first[:2]...).Frontier()))
	for _, c := range []struct {
		name string
		held []Event
		want int
	}{
		{"all of it", append(first[:3:3], sealed), 0},
		{"nothing", nil, 0},
		{"one between", []Event{first[0], first[2]}, 1},
		{"the first two", []Event{first[2]}, 2},
		{"a tail that nobody saw", first[:1], 0},
		{"one that the seal saw", []Event{first[0], sealed}, 1},
		{"the whole stream that the seal saw", []Event{sealed}, 2},
	} {
		if got := apply(t, c.held...).Missing(); got != c.want {
			t.Errorf("%s: %d missing, want %d", c.name, got, c.want)
		}
	}
}
