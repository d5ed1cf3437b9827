package exchange

// Next returns what to ask now. Measurements come before pictures: no piece is
// offered while an event waits that the office could take.
func (p *Phone) Next() Ask {
	ask := p.next()
	p.asked++
	ask.number = p.asked
	return ask
}

func (p *Phone) next() Ask {
	ask := Ask{Kind: Send, from: p.cursor}
	if events := p.push(); len(events) > 0 || !p.fresh {
		ask.Message = Message{Kind: Push, Job: p.job, Events: events}
		return ask
	}
	if p.cursor != p.office.end {
		ask.Message = Message{Kind: Pull, Job: p.job, From: p.cursor}
		return ask
	}
	if !p.doubted && !p.plausible() {
		p.doubted = true // once in a round
		ask.Message = Message{Kind: Push, Job: p.job}
		return ask
	}
	if sums := p.toOffer(); len(sums) > 0 {
		ask.Message = Message{Kind: Have, Job: p.job, Sums: sums}
		return ask
	}
	if sum := p.toPut(); sum != "" {
		return Ask{Kind: Put, Sum: sum}
	}
	if sum := p.toGet(); sum != "" {
		return Ask{Kind: Get, Sum: sum}
	}
	return Ask{}
}

// plausible reports whether the heads that the office names are here. When its
// whole log is here and one of them is not, the truth was damaged on its way, and
// would keep a stream from being sent.
func (p *Phone) plausible() bool {
	for _, h := range p.office.heads {
		if p.known[h.Hash] == nil {
			return false
		}
	}
	return true
}
