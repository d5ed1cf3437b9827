package job

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Whatever is added in whatever order, the list is the one that sorting makes.
func TestKeyListIsSorted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := rapid.StringMatching(`[a-c][0-9]{1,3}`)
		keys := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) Key {
			return Key{Visit: rapid.SampledFrom([]string{"v1", "v2"}).Draw(t, "visit"), Part: part.Draw(t, "part"), Field: "f"}
		}), 0, 400, func(k Key) Key { return k }).Draw(t, "keys")
		var l keyList
		for _, k := range keys {
			l.add(k)
		}
		sorted := slices.SortedFunc(slices.Values(keys), Key.Compare)
		if got := l.all(); !slices.Equal(got, sorted) {
			t.Fatalf("got %v, want %v", got, sorted)
		}
		from := Key{Visit: "v1", Part: part.Draw(t, "from")}
		at, _ := slices.BinarySearchFunc(sorted, from, Key.Compare)
		if got := slices.Collect(l.from(from)); !slices.Equal(got, sorted[at:]) {
			t.Fatalf("from %v: got %v, want %v", from, got, sorted[at:])
		}
	})
}
