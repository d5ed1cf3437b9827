package draw

import (
	"strconv"
	"strings"

	"lugmark/core/say"
)

var noteWhole = say.Phrase{Key: "draw.read-whole",
	English: "Read {whole} before each point: {short} is {long}."}

// printed is a reading as a block shows it.
type printed struct {
	text     string // ASCII digits
	decimals bool   // only the decimals, to be set larger
}

// shorten fits readings of five digits into narrow blocks. They print their
// decimals only, and the whole volts stand once above the drawing. A block with
// other whole volts is printed whole; when more than a quarter of the blocks
// differ, all are.
func shorten(readings map[string]string) (map[string]printed, say.Line) {
	out := make(map[string]printed, len(readings))
	long, most, counts := "", "", map[string]int{}
	for id, text := range readings {
		out[id] = printed{text: twoDecimals(text)}
		if whole, decimals, ok := strings.Cut(text, "."); ok && len(decimals) >= 3 {
			counts[whole]++
			if n, m := counts[whole], counts[most]; n > m || n == m && whole < most {
				most = whole
			}
		}
	}
	if most == "" || 4*(len(readings)-counts[most]) > len(readings) {
		return out, say.Line{}
	}
	for id, text := range readings {
		whole, decimals, _ := strings.Cut(text, ".")
		if whole != most || len(decimals) < 3 {
			continue
		}
		out[id] = printed{text: "." + decimals, decimals: true}
		if long == "" || text < long { // one of them, always the same
			long = text
		}
	}
	return out, noteWhole.With(
		"whole", say.Figure{Digits: most, Unit: "1"},
		"short", say.Figure{Digits: strings.TrimPrefix(long, most), Unit: "1"},
		"long", say.Figure{Digits: long, Unit: "V"})
}

// twoDecimals rounds for the drawing only; the record and the words keep what
// was typed.
func twoDecimals(text string) string {
	_, decimals, _ := strings.Cut(text, ".")
	if len(decimals) <= 2 {
		return text
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text
	}
	return strconv.FormatFloat(x, 'f', 2, 64)
}
