package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

const small = `package small

const most, name = 14.2, "V" + "x"

var table = []float64{3, 40}

func above(a, b float64) bool {
	if a > b {
		return -a+b < 0.5
	}
	list := []int{7}
	return list[0] == 1 && most*a >= b
}
`

// By hand from the text above. Texts joined by a plus are no sums, and whole
// numbers within a function are places and counts.
func TestEveryChangeIsFound(t *testing.T) {
	want := []string{
		"3 limit 14.2 to 15.62", "3 limit 14.2 to 12.9090909091",
		"5 table 3 to 4", "5 table 3 to 2", "5 table 40 to 44", "5 table 40 to 37",
		"8 not a > b to !(a > b)", "8 order > to >=",
		"9 order < to <=", "9 sign + to -", "9 sign - to +", "9 limit 0.5 to 0.55", "9 limit 0.5 to 0.454545454545",
		"12 order >= to >", "12 sign * to /",
	}
	found, err := FindIn("./small", "small/small.go", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]bool{}
	for _, m := range found {
		got[strings.Join([]string{strconv.Itoa(m.Line), m.Kind, m.Change()}, " ")] = true
		if !strings.Contains(m.Apply(), m.new) {
			t.Errorf("line %d: %s is not applied", m.Line, m.Change())
		}
	}
	for _, w := range want {
		if !got[w] {
			t.Errorf("%q was not found", w)
		}
		delete(got, w)
	}
	for g := range got {
		t.Errorf("%q was not asked for", g)
	}
}

const shown = `package shown

var field = quantity("volts", 5).in("mV").round(2, "posts")

func says(a, b float64) string { return strconv.FormatFloat(a*b, 'g', -1, 64) + figure.Range(a-0.5, -3.0, 7) }

func rounds(a float64) float64 { return math.Round(a, -0.5) }
`

// By hand: how many digits are shown is no limit, and the minus before it no
// sign; what is worked out beside it still is, and so is what other calls take.
func TestDigitsShownAreNoLimits(t *testing.T) {
	found, err := FindIn("./shown", "shown/shown.go", []byte(shown))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, m := range found {
		got = append(got, strings.Join([]string{strconv.Itoa(m.Line), m.Kind, m.Change()}, " "))
	}
	slices.Sort(got)
	want := []string{
		"3 limit 5 to 4", "3 limit 5 to 6",
		"5 limit 0.5 to 0.454545454545", "5 limit 0.5 to 0.55", "5 sign * to /", "5 sign + to -", "5 sign - to +",
		"7 limit 0.5 to 0.454545454545", "7 limit 0.5 to 0.55", "7 sign - to +",
	}
	if !slices.Equal(got, want) {
		t.Errorf("found %q, want %q", got, want)
	}
}

func TestTheSameSeedDrawsTheSame(t *testing.T) {
	all := make([]Mutant, 100)
	for i := range all {
		all[i].Line = i
	}
	a, b, c := Draw(all, 10, 1), Draw(all, 10, 1), Draw(all, 10, 2)
	same := true
	for i := range a {
		if a[i] != b[i] || i > 0 && a[i].Line <= a[i-1].Line {
			t.Errorf("drawn %v and %v", a, b)
		}
		same = same && a[i] == c[i]
	}
	if same || len(Draw(all, 0, 1)) != 100 {
		t.Error("another seed draws the same, or none does not draw all")
	}
}

// A package of its own, with a test that knows one of two limits.
func TestMutantsLiveAndDie(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod": "module small\n\ngo 1.24\n",
		"small.go": "package small\n\nconst most, least = 20.0, 10.0\n\nfunc Within(v float64) bool { return least <= v && v <= most }\n\n" +
			"func Name(a, b string) string { return a + b }\n",
		"small_test.go": "package small\n\nimport \"testing\"\n\nfunc TestMost(t *testing.T) {\n\tif !Within(20) || Within(20.1) || Name(\"a\", \"b\") != \"ab\" {\n\t\tt.Fail()\n\t}\n}\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	found, err := Find(dir)
	if err != nil {
		t.Fatal(err)
	}
	fates := map[string]string{}
	for x := range Try(context.Background(), found, t.TempDir(), time.Minute, 1) {
		if x.Err != nil {
			t.Fatal(x.Err)
		}
		fates[x.Change()+" in line "+strconv.Itoa(x.Line)] = x.Fate
	}
	for change, want := range map[string]string{
		"20.0 to 22 in line 3": Killed, "20.0 to 18.1818181818 in line 3": Killed,
		"10.0 to 11 in line 3": Survived, "10.0 to 9.09090909091 in line 3": Survived,
		"<= to < in line 5": Killed, // the last of two in that line
		"+ to - in line 7":  Unbuilt,
	} {
		if fates[change] != want {
			t.Errorf("%s: %s, want %s", change, fates[change], want)
		}
	}
	if original, _ := os.ReadFile(filepath.Join(dir, "small.go")); !strings.Contains(string(original), "20.0, 10.0") {
		t.Error("a file of the tree was touched")
	}
}

// A loop that never ends is killed by the clock and not by a test, and says so.
func TestWhatTakesTooLongIsSaid(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":        "module small\n\ngo 1.24\n",
		"small.go":      "package small\n\nfunc Steps(to float64) (n int) {\n\tfor at := 0.0; at < to; at += 1.0 {\n\t\tn++\n\t}\n\treturn n\n}\n",
		"small_test.go": "package small\n\nimport \"testing\"\n\nfunc TestSteps(t *testing.T) {\n\tif Steps(3) != 3 {\n\t\tt.Fail()\n\t}\n}\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	found, err := Find(dir)
	if err != nil {
		t.Fatal(err)
	}
	found = slices.DeleteFunc(found, func(m Mutant) bool { return m.Kind != "sign" })
	count := tally{}
	for x := range Try(context.Background(), found, t.TempDir(), time.Second, 1) {
		count.add(x)
	}
	var said strings.Builder
	count.print(&said)
	if got := said.String(); count["sign"][Slow] != 1 || !strings.Contains(got, "1 of    1 killed") || !strings.Contains(got, "1 of the killed only took longer") {
		t.Errorf("got %v and %q", count, got)
	}
}

// What stands in the list still stands in the tree.
func TestEquivalentMutantsAreStillThere(t *testing.T) {
	t.Chdir("../..")
	same, err := readEquivalent("build/mutants/equivalent.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, folder := range usual {
		found, err := Find(folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range found {
			delete(same, key(m.File, m.Text, m.Change()))
		}
	}
	for k := range same {
		t.Errorf("%s: no such change any more", k)
	}
}
