package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// A serial number stands on one block only: the same one twice is a slip of
// the finger, and the record would speak of the wrong block.
var serialOnce = &Check{
	ID: "serial-once", Stage: Receive,
	Title:   say.Phrase{Key: "serial-once.title", English: "Serial numbers"},
	Asks:    say.Phrase{Key: "serial-once.asks", English: "Is every block's serial number entered, and none twice?"},
	Formula: "serial of each block ≠ serial of any other",
	Limits:  []LimitOf{{"serial", finding.House}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&blockSerial.Field},
	Parts:   onBank,
	Eval:    evalSerialOnce,
}

var (
	saySerialsGood = say.Phrase{Key: "serial-once.pass", English: "Every block has a serial number of its own."}
	saySerialTwice = say.Phrase{Key: "serial-once.fail", English: "{a} and {b} both have the serial number {serial}; each number stands on one block only."}
	saySerialAgain = say.Phrase{Key: "serial-once.next", English: "Read the label again and correct the serial."}
	saySerialLimit = say.Phrase{Key: "serial-once.limit", English: "each serial number once"}
)

func evalSerialOnce(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "serial", Kind: finding.House, Source: cite.OurRule.Line(), Text: saySerialLimit.With()}
	seen := map[string]string{}
	var gap *finding.Finding
	for _, b := range f.Layout().Blocks() {
		serial, ok := blockSerial.Of(f, b)
		if !ok {
			if gap == nil {
				x := missing(blockSerial.Field, b)
				gap = &x
			}
			continue
		}
		key := plainText(serial)
		if a, twice := seen[key]; twice {
			x := finding.Fails(saySerialTwice.With("a", bank.Name(a), "b", bank.Name(b), "serial", serial), saySerialAgain.With())
			return one(x.About(a, b).Against(limit))
		}
		seen[key] = b
	}
	if gap != nil {
		return one(gap.Against(limit))
	}
	return one(finding.Passes(saySerialsGood.With()).Against(limit))
}
