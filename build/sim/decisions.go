package main

const (
	logFile    = "core/exchange/log.go"
	answerFile = "core/exchange/answer.go"
	nextFile   = "core/exchange/next.go"
	pieceFile  = "core/exchange/piece.go"
	phoneFile  = "core/exchange/phone.go"
)

// mutants are the design decisions, each taken away. What stands under build/sim
// is decided by the app, for which this program stands.
var mutants = []mutant{
	{name: "a stream of its own for every start", changes: []change{
		{"core/job/writer.go", "	h.Write(random[:])\n	return &Writer{", `	name := base32Lower.EncodeToString(h.Sum(nil))[:16]
	mark := Mark{}
	if st := state.stream[name]; st != nil && st.head > 0 {
		hash := st.at[st.head].Hash
		mark = Mark{st.head, hex.EncodeToString(hash[:]), state.maxLam}
	}
	return &Writer{
		Mark:   mark,`}}},
	{name: "kept is shown when the transaction has completed", changes: []change{
		{"build/sim/act.go", "	o.keep(m.act, func(err error) {\n", "	o.show(m)\n	o.keep(m.act, func(err error) {\n"}}},
	{name: "transactions are strict", changes: []change{
		{"build/sim/disk.go", "		d.flush()\n		if err == nil {", `		w.in(2000, func() {
			if t.device.boots == boots {
				d.flush()
			}
		})
		if err == nil {`}}},
	{name: "the cursor has a hash", changes: []change{
		{logFile, "return there && acc == c.Acc", "return there || acc == c.Acc"},
		{answerFile, "	if k.Cursor != m.To {", "	k.Cursor = m.To\n	if k.Cursor != m.To {"}}},
	{name: "a phone begins again on 410", changes: []change{
		{answerFile, "		return p.startOver()", "		return Step{Wait: true}"}}},
	{name: "the office answers after the commit", changes: []change{
		{"build/sim/office.go", "func (o *office) commit(do func()) { do() }", `func (o *office) commit(do func()) {
	starts := o.starts
	o.w.in(400, func() {
		if o.starts == starts {
			do()
		}
	})
}`}}},
	{name: "the truth may be less than before", changes: []change{
		{answerFile, "	p.office = newTruth(r.Message)\n", `	was := p.office
	p.office = newTruth(r.Message)
	for name, head := range was.heads {
		if p.office.heads[name].Seq < head.Seq {
			p.office.heads[name] = head
		}
	}
`},
		{answerFile, "	p.office, p.fresh = truth{}, false", "	p.fresh = false"}}},
	{name: "the count rises above all that was seen", changes: []change{
		{"core/job/writer.go", "max(w.lam, w.state.MaxLam()) + 1", "w.lam + 1"}}},
	{name: "sup takes out of view", changes: []change{
		{"core/job/state.go", "return len(s.over[e.ID]) > 0", "return len(s.over[e.ID]) < 0"}}},
	{name: "sup names all that was seen", changes: []change{
		{"core/job/acts.go", "return saw[:min(len(saw), MaxSup)]", "return saw[max(0, len(saw)-1):]"}}},
	{name: "rivals are a conflict, not the latest wins", changes: []change{
		{"core/job/live.go", "			return Entry{}, Conflict\n", `			if e.At > live[0].At {
				live[0] = e
			}
`}}},
	{name: "a fork stands aside", changes: []change{
		{logFile, "		if other {\n", "		if other && e.Seq < 0 {\n"}}},
	{name: "the office checks the chain", changes: []change{
		{logFile, " || e.Seq > 1 && aside[prev] || e.Seq == head.Seq+1 && prev != head.Hash", " || e.Seq < 0 && aside[prev]"}}},
	{name: "the office wants no holes", changes: []change{
		{logFile, "if e.Seq > head.Seq+1 && !other {", "if e.Seq > head.Seq+1000 && !other {"}}},
	{name: "the office checks signatures", changes: []change{
		{logFile, "return k != nil && verify(k, e.Hash, e.Sig)", "return k != nil"}}},
	{name: "signatures are checked on pull", changes: []change{
		{answerFile, "return key != nil && p.verify(key, e.Hash, e.Sig)", "return key != nil"}}},
	{name: "cursor and events in one transaction", changes: []change{
		{"build/sim/net.go", "	k := *step.Keep\n", "	k := *step.Keep\n	o.keep(act{job: o.job.id, cursor: &k.Cursor}, func(error) {})\n"}}},
	{name: "what arrives counts only when it is kept", changes: []change{
		{"build/sim/net.go", "	k := *step.Keep\n", "	k := *step.Keep\n	o.phone.Kept(k)\n"}}},
	{name: "events before photos", changes: []change{
		{nextFile, "	if events := p.push();", `	if sums := p.toOffer(); len(sums) > 0 {
		ask.Message = Message{Kind: Have, Job: p.job, Sums: sums}
		return ask
	}
	if events := p.push();`}}},
	{name: "a blob is checked by its hash", changes: []change{
		{pieceFile, "if got := sumOf(data); got != sum {", "if got := sumOf(data); got == \"\" {"}}},
	{name: "event and blob in one transaction", changes: []change{
		{"build/sim/act.go", "	o.keep(m.act, func(err error) {\n", `	o.keep(act{job: m.job, blobs: m.blobs}, func(error) {})
	m.act.blobs = nil
	o.keep(m.act, func(err error) {
`}}},
	{name: "a new stream after a save that failed", changes: []change{
		{"build/sim/act.go", "			o.newWriter() // nobody knows what the disk has", "			o.writer.Undo(mark)"}}},
	{name: "any phone heals the office, not only the author's", changes: []change{
		{phoneFile, "		if k.Seq == 1 || there[k.prev] {", "		if k.came {\n			continue\n		}\n		if k.Seq == 1 || there[k.prev] {"},
		{phoneFile, "	aside bool\n	key   Key // of", "	aside, came bool\n	key   Key // of"},
		{phoneFile, "	for _, e := range k.Events {\n		p.add(e, false)\n", "	for _, e := range k.Events {\n		p.add(e, false)\n		p.known[e.Hash].came = true\n"}}},
	{name: "after a save that failed the disk is read again", changes: []change{
		{"build/sim/disk.go", "				t.reread(a.job) // nobody knows what the disk has, so it is asked\n", ""}}},
	{name: "of a late reply only events and pieces count", changes: []change{
		{answerFile, "	case ask.number != p.asked && (", "	case ask.number < 0 && ("}}},
	{name: "a page fills the hole that a file has left", changes: []change{
		{answerFile, "			came[e.Hash] = arrived{e, here.aside, a.key}\n", ""}}},
	{name: "a truth that cannot be is asked for again", changes: []change{
		{nextFile, "	if !p.doubted && !p.plausible() {", "	if !p.doubted && p.plausible() && p.asked < 0 {"}}},
	{name: "a brief counts only when the log is what it was", changes: []change{
		{"core/exchange/list.go", " || m.End != p.office.end", ""}}},
	{name: "what a newer app wrote is kept and leaves the field open", changes: []change{
		{"core/job/others.go", "	if slices.ContainsFunc(c.unread, inView) {\n		return true", "	if slices.ContainsFunc(c.unread, inView) {\n		return false"}}},
	{name: "a late reply may move the cursor", changes: []change{
		{answerFile, "	k := Keep{Cursor: m.From}\n", "	if m.From != p.cursor {\n		return Step{}\n	}\n	k := Keep{Cursor: m.From}\n"}},
		same: "a cursor can only name events that are here: the guard is needless, and is left out"},
}
