package exchange

import (
	"maps"
	"slices"

	"lugmark/core/job"
)

// pieces is what a phone knows of the pieces of its job's blobs.
type pieces struct {
	here    map[string]bool   // on this phone
	named   map[string]string // by events on this phone: sum to media type
	order   []string          // of named, in the order in which they were named
	offered map[string]bool   // in this round: the office has been asked
	lack    []string          // the office is without them, as it said in this round
	sought  map[string]bool   // in this round: the office was asked and has not got it
}

func newPieces() pieces {
	return pieces{here: map[string]bool{}, named: map[string]string{}}
}

func (p *pieces) begin() {
	p.offered, p.sought, p.lack = map[string]bool{}, map[string]bool{}, nil
}

func (p *pieces) name(e job.Event) {
	for _, piece := range Pieces(e) {
		if _, was := p.named[piece.Sum]; !was {
			p.named[piece.Sum] = piece.Type
			p.order = append(p.order, piece.Sum)
		}
	}
}

// toOffer returns pieces that are here and that the office was not yet asked
// about in this round.
func (p *pieces) toOffer() (sums []string) {
	for _, sum := range p.order {
		if p.here[sum] && !p.offered[sum] && len(sums) < MaxSums {
			sums = append(sums, sum)
		}
	}
	slices.Sort(sums)
	return sums
}

func (p *pieces) toPut() string {
	if len(p.lack) == 0 {
		return ""
	}
	return p.lack[0]
}

// toGet returns a piece that is named and not here.
func (p *pieces) toGet() string {
	for _, sum := range p.order {
		if !p.here[sum] && !p.sought[sum] {
			return sum
		}
	}
	return ""
}

// Missing returns how many pieces are named and not here.
func (p *pieces) Missing() int {
	n := 0
	for sum := range maps.Keys(p.named) {
		if !p.here[sum] {
			n++
		}
	}
	return n
}

// answerLack takes the answer to a have. What the office names beyond what it
// was asked about is not sent.
func (p *pieces) answerLack(asked, lack []string) {
	for _, sum := range asked {
		p.offered[sum] = true
	}
	p.lack = slices.DeleteFunc(slices.Clone(lack), func(sum string) bool { return !slices.Contains(asked, sum) })
}

func (p *pieces) answerPut(sum string) {
	p.lack = slices.DeleteFunc(p.lack, func(s string) bool { return s == sum })
}

// answerGet returns the blob to keep; false when these are other bytes.
func (p *pieces) answerGet(sum string, data []byte) (job.Blob, bool) {
	p.sought[sum] = true // once in a round, also when it is good: Kept says that it is here
	if CheckPiece(sum, data) != nil {
		return job.Blob{}, false
	}
	return job.Blob{Sum: sum, Type: p.named[sum], Data: data}, true
}
