package checks

import (
	"slices"

	"lugmark/core/bank"
	"lugmark/core/circuit"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// band is one way in which the branch resistances may be: what is most likely
// of each, the least and the most.
type band struct{ likely, low, high []unit.Ohm }

// network is the bank, or one group of it, as branches side by side.
type network struct {
	branches []string   // ids: strings, or the blocks of a group
	blocks   [][]string // of each branch
	ladder   circuit.Ladder
	bands    []band // one when every block was measured, else two; none for one branch
	odd      string // the link to look at when there is no solution
}

// networks gives the ladders of the bank: one of its strings, or one of each
// group. What is missing for them is a finding.
func (f *Facts) networks() (map[string]network, *finding.Finding) {
	out := map[string]network{}
	for _, part := range f.networkParts() {
		n, gap := f.network(part)
		if gap != nil {
			return nil, gap
		}
		out[part] = n
	}
	return out, nil
}

// networkParts: the bank, or each group where groups stand in series.
func (f *Facts) networkParts() []string {
	if f.Layout().Join != bank.JoinGroups || f.Layout().Series == 1 {
		return []string{"bank"}
	}
	var parts []string
	for _, g := range f.Layout().Groups() {
		parts = append(parts, g.ID)
	}
	return parts
}

// network gives the ladder of the bank's strings or of one group.
func (f *Facts) network(part string) (network, *finding.Finding) {
	type built struct {
		network network
		gap     *finding.Finding
	}
	b := remember(f, "network "+part, func() (b built) {
		b.network, b.gap = f.buildNetwork(part)
		return b
	})
	return b.network, b.gap
}

func (f *Facts) buildNetwork(part string) (network, *finding.Finding) {
	l := f.Layout()
	n := network{odd: f.enteredLink()}
	var copper []unit.Ohm
	row := 0 // of the group
	switch {
	case l.Join == bank.JoinGroups:
		for i, g := range l.Groups() {
			if g.ID == part || part == "bank" && l.Series == 1 {
				row, n.branches = i, g.Blocks
			}
		}
		for _, b := range n.branches {
			n.blocks = append(n.blocks, []string{b})
		}
		n.ladder.Plus, n.ladder.Minus = groupEnds(l, row)
	default:
		for _, s := range l.Strings() {
			n.branches, n.blocks = append(n.branches, s.ID), append(n.blocks, s.Blocks)
		}
		n.ladder.Plus, n.ladder.Minus, _ = l.LeadColumns()
	}
	if len(n.branches) < 2 {
		return n, nil
	}
	for k, id := range n.branches {
		var own unit.Ohm
		for i := 0; i+1 < len(n.blocks[k]); i++ {
			own += f.linkOhm(bank.LinkID(n.blocks[k][i]+".n", n.blocks[k][i+1]+".p"))
		}
		for _, sign := range []string{".p", ".n"} {
			if l.Bars() {
				own += f.linkOhm(bank.LinkID(id+sign, barOf(l, row, sign)))
			}
		}
		copper = append(copper, own)
		if k > 0 && !l.Bars() {
			n.ladder.Rungs = append(n.ladder.Rungs, circuit.Rung{
				Plus:  f.linkOhm(bank.LinkID(n.branches[k-1]+".p", id+".p")),
				Minus: f.linkOhm(bank.LinkID(n.branches[k-1]+".n", id+".n")),
			})
		}
	}
	var gap *finding.Finding
	n.bands, gap = f.bands(n.blocks, copper)
	if gap != nil {
		return network{}, gap
	}
	for _, r := range n.bands[0].likely {
		n.ladder.Branches = append(n.ladder.Branches, circuit.Branch{R: r})
	}
	return n, nil
}

// groupEnds gives the columns at which the current enters and leaves a group.
func groupEnds(l bank.Layout, row int) (plus, minus int) {
	plus, minus, _ = l.LeadColumns()
	if above, ok := l.GroupLinkColumn(row - 1); ok {
		plus = above
	}
	if below, ok := l.GroupLinkColumn(row); ok {
		minus = below
	}
	return plus, minus
}

// barOf is the bus bar on which the leads of a branch end.
func barOf(l bank.Layout, row int, sign string) string {
	if l.Join == bank.JoinGroups {
		return l.Groups()[row].ID + sign
	}
	return "bar" + sign
}

// currents gives what every branch carries at a load: the lowest and the
// highest over all corners of what the resistances may be.
func (n network) currents(load unit.Ampere) ([]measure.Interval[unit.Ampere], error) {
	if len(n.branches) == 1 {
		return []measure.Interval[unit.Ampere]{{Low: load, High: load}}, nil
	}
	var out []measure.Interval[unit.Ampere]
	for _, b := range n.bands {
		spans, err := n.ladder.Corners(load, b.low, b.high)
		if err != nil {
			return nil, err
		}
		if out == nil {
			out = spans
			continue
		}
		for k := range out {
			out[k].Low, out[k].High = min(out[k].Low, spans[k].Low), max(out[k].High, spans[k].High)
		}
	}
	return out, nil
}

// likely is the ladder with every resistance as it most likely is in a band.
func (n network) likely(b band) circuit.Ladder {
	l := n.ladder
	l.Branches = slices.Clone(l.Branches)
	for k, r := range b.likely {
		l.Branches[k].R = r
	}
	return l
}

// uneven is the largest branch current over the smallest, all resistances as
// they most likely are; of the bands the worse one counts.
func (n network) uneven(load unit.Ampere) unit.Ratio {
	worst := unit.Ratio(1)
	for _, b := range n.bands {
		flow, err := n.likely(b).Divide(load)
		if err != nil {
			continue
		}
		if r, ok := circuit.Uneven(flow.Branch); ok {
			worst = max(worst, r)
		}
	}
	return worst
}

// largestShare is the largest part of the bank's current that any block
// carries, lowest and highest, and that block.
func (f *Facts) largestShare() (share measure.Interval[unit.Ratio], block string, gap *finding.Finding) {
	nets, gap := f.networks()
	if gap != nil {
		return share, "", gap
	}
	for _, part := range f.networkParts() {
		s, b, gap := nets[part].largestShare()
		if gap != nil {
			return share, "", gap
		}
		if block == "" || s.High > share.High {
			share, block = s, b
		}
	}
	return share, block, nil
}

// largestShare is [Facts.largestShare] for one ladder.
func (n network) largestShare() (share measure.Interval[unit.Ratio], block string, gap *finding.Finding) {
	spans, err := n.currents(1)
	if err != nil {
		x := finding.CannotTell(sayNetworkOdd.With(), enter(linkR.Field, n.odd))
		return share, "", &x
	}
	for k, s := range spans {
		if block == "" || unit.Ratio(s.High) > share.High {
			share = measure.Interval[unit.Ratio]{Low: unit.Ratio(s.Low), High: unit.Ratio(s.High)}
			block = n.blocks[k][0]
		}
	}
	return share, block, nil
}
