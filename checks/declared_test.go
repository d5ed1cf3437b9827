package checks

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// What a check says of itself, its limits and sources, is compared with what
// its findings said in all tests of this package together: neither may know of
// a limit that the other does not. So the list of rules cannot lie.

// judgedBy is one limit that a finding carried, and a source that it named.
type judgedBy struct {
	check string
	limit LimitOf
}

type named struct {
	check  string
	source string
}

var (
	heardLimits  = map[judgedBy]bool{}
	heardSources = map[named]bool{}
)

// heard keeps what the findings of one run were judged by.
func heard(found []finding.Finding) {
	for _, x := range found {
		if l, ok := x.Limit(); ok && l.Kind != "" { // without a kind it only tells two findings apart
			heardLimits[judgedBy{x.Check(), LimitOf{l.Name, l.Kind}}] = true
		}
		for _, s := range strings.Split(say.Voice{}.Say(x.Source()), "; ") {
			heardSources[named{x.Check(), s}] = true
		}
	}
}

func TestMain(m *testing.M) {
	code := m.Run()
	whole := true // a test that was left out may have been the one that showed a limit
	for _, name := range []string{"test.run", "test.skip", "test.list"} {
		whole = whole && flag.Lookup(name).Value.String() == ""
	}
	if code == 0 && whole {
		for _, lie := range lies() {
			fmt.Println(lie)
			code = 1
		}
	}
	os.Exit(code)
}

// lies lists what a check says of itself and its findings do not, and the
// other way round.
func lies() (out []string) {
	for l := range heardLimits {
		c := known(l.check)
		tightened := l.limit.Kind == finding.House && slices.ContainsFunc(HouseLimits, func(h HouseLimit) bool {
			return h.Check == l.check && h.Name == l.limit.Name
		})
		if c == nil || !tightened && !slices.Contains(c.Limits, l.limit) {
			out = append(out, fmt.Sprintf("%s was judged by %v, which its Limits do not name", l.check, l.limit))
		}
	}
	for _, c := range All {
		for _, l := range c.Limits {
			if !heardLimits[judgedBy{c.ID, l}] {
				out = append(out, fmt.Sprintf("%s names the limit %v, and no test shows it", c.ID, l))
			}
		}
	}
	for s := range heardSources {
		if c := known(s.check); c == nil || !mayName(c, s.source) {
			out = append(out, fmt.Sprintf("%s named the source %q, which is not among its Sources", s.check, s.source))
		}
	}
	slices.Sort(out)
	return out
}

// mayName reports whether a finding of a check may name a source: one of its
// own, the maker of the part in hand, or the firm.
func mayName(c *Check, source string) bool {
	for _, s := range append(slices.Clone(c.Sources), &cite.Firm) {
		if source == (say.Voice{}).Say(s.Line()) {
			return true
		}
	}
	ofPart := source == "" || source == "the curve of the fuse" || source == "the marking or the data sheet of the fuse"
	return ofPart || strings.HasPrefix(source, "the maker's sheet")
}
