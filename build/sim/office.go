package main

import (
	"slices"

	"lugmark/core/exchange"
	"lugmark/core/job"
)

// office is one server with a database that commits whole or not at all.
type office struct {
	w       *world
	down    bool
	starts  int
	tables  map[string]*table // by job
	backups []map[string]*table
}

// table is the log of one job, what stands aside, and the pieces of its blobs.
type table struct {
	rows  []exchange.Row
	aside []exchange.Event
	blobs map[string][]byte
	sums  []string

	heads map[string]job.Head
	keys  map[string]exchange.Key
	at    map[place][32]byte
	named map[string]bool // pieces
}

func newOffice(w *world) *office {
	o := &office{w: w, tables: map[string]*table{}}
	for _, name := range w.jobs {
		o.tables[name.id] = newTable(nil, nil, nil, nil)
	}
	return o
}

func newTable(rows []exchange.Row, aside []exchange.Event, sums []string, blobs map[string][]byte) *table {
	t := &table{heads: map[string]job.Head{}, keys: map[string]exchange.Key{}, at: map[place][32]byte{},
		named: map[string]bool{}, blobs: map[string][]byte{}}
	t.append(rows, aside)
	for _, sum := range sums {
		t.put(sum, blobs[sum])
	}
	return t
}

func (t *table) append(rows []exchange.Row, aside []exchange.Event) {
	for _, r := range rows {
		t.rows = append(t.rows, r)
		t.heads[r.Stream] = job.Head{Stream: r.Stream, Seq: r.Seq, Hash: r.Hash}
		t.at[place{r.Stream, r.Seq}] = r.Hash
		if r.Seq == 1 {
			t.keys[r.Stream] = exchange.KeyOf(r.Event.Event)
		}
		t.name(r.Event)
	}
	for _, e := range aside {
		t.aside = append(t.aside, e)
		t.name(e)
	}
}

func (t *table) name(e exchange.Event) {
	for _, p := range exchange.Pieces(e.Event) {
		t.named[p.Sum] = true
	}
}

func (t *table) put(sum string, data []byte) {
	if _, there := t.blobs[sum]; !there {
		t.sums = append(t.sums, sum)
	}
	t.blobs[sum] = data
}

// log is what a decision needs, read in the transaction that will append.
func (t *table) log(id string) *exchange.Log {
	l := &exchange.Log{Job: id, Heads: t.heads, Aside: t.aside, Keys: t.keys}
	if n := len(t.rows); n > 0 {
		l.End = t.rows[n-1].Cursor
	}
	l.Hash = func(stream string, seq int) ([32]byte, bool) {
		h, there := t.at[place{stream, seq}]
		return h, there
	}
	l.Acc = func(n int) ([32]byte, bool) {
		if n < 1 || n > len(t.rows) {
			return [32]byte{}, false
		}
		return t.rows[n-1].Acc, true
	}
	return l
}

// commit is a durable transaction.
func (o *office) commit(do func()) { do() }

// handle is one request. Answer is called at most once, and after the commit.
func (o *office) handle(req request, answer func(status int, body []byte)) {
	w := o.w
	switch {
	case o.down:
		return
	case w.chance(17):
		o.die("office dies before handling")
		return
	case w.chance(10):
		w.tally.fault("office busy")
		answer(503, nil)
		return
	}
	status, body := o.serve(req)
	if w.chance(17) {
		o.die("office dies before answering")
		return
	}
	answer(status, body)
}

func (o *office) serve(req request) (status int, body []byte) {
	t := o.tables[req.job]
	switch req.kind {
	case list:
		var briefs []exchange.Message
		for _, name := range o.w.jobs {
			briefs = append(briefs, o.tables[name.id].log(name.id).Brief())
		}
		return 200, exchange.EncodeList(briefs)
	case exchange.Put:
		if !t.named[req.sum] {
			return 404, problem(exchange.CodeUnnamed)
		}
		if exchange.CheckPiece(req.sum, req.body) != nil {
			return 422, problem(exchange.CodeSum)
		}
		o.commit(func() { t.put(req.sum, req.body) })
		return 201, nil
	case exchange.Get:
		if data, there := t.blobs[req.sum]; there {
			return 200, data
		}
		return 404, nil
	}
	m, err := exchange.Decode(req.body)
	if err != nil || m.Job != req.job {
		return 400, problem(exchange.CodeSyntax)
	}
	log := t.log(req.job)
	switch m.Kind {
	case exchange.Push:
		d := log.Decide(o.w.signer.verify, m.Events)
		if d.Refused != nil {
			return 422, exchange.Encode(exchange.Message{Kind: exchange.Problem, Code: exchange.CodeRefused, Index: d.Refused.Index, Why: d.Refused.Why})
		}
		o.commit(func() { o.append(t, d) })
		if status = 200; len(d.Aside) > 0 {
			status = 409
		}
		return status, exchange.Encode(log.After(d))
	case exchange.Pull:
		if !log.Names(m.From) {
			o.w.tally.count("cursors refused")
			return 410, problem(exchange.CodeCursor)
		}
		return 200, exchange.Encode(log.PageOf(m.From, t.rows[m.From.N:]))
	case exchange.Have:
		lack := exchange.Message{Kind: exchange.Lack, Job: m.Job}
		for _, sum := range m.Sums {
			if _, there := t.blobs[sum]; !there {
				lack.Sums = append(lack.Sums, sum)
			}
		}
		return 200, exchange.Encode(lack)
	}
	return 400, problem(exchange.CodeSyntax)
}

func (o *office) append(t *table, d exchange.Decision) {
	t.append(d.Rows, d.Aside)
	for _, r := range d.Rows {
		if m := o.w.history.byHash[r.Hash]; m != nil {
			m.reached = true
		}
	}
	for _, e := range d.Aside {
		if m := o.w.history.byHash[e.Hash]; m != nil {
			m.reached = true
		}
		o.w.tally.count("events set aside")
	}
}

func problem(code string) []byte {
	return exchange.Encode(exchange.Message{Kind: exchange.Problem, Code: code})
}

// die ends the program of the office; it starts again after a while.
func (o *office) die(how string) {
	o.w.tally.fault(how)
	o.w.say("%s", how)
	o.down = true
	o.starts++
	o.w.in(500+o.w.rng.Int64N(5000), func() { o.down = false })
}

// backUp copies the database as it is.
func (o *office) backUp() {
	copied := map[string]*table{}
	for id, t := range o.tables {
		blobs := map[string][]byte{}
		for _, sum := range t.sums {
			blobs[sum] = t.blobs[sum]
		}
		copied[id] = newTable(t.rows, t.aside, slices.Clone(t.sums), blobs)
	}
	o.backups = append(o.backups, copied)
}

// restore puts one of the backups in the place of the database.
func (o *office) restore() {
	old := o.backups[o.w.rng.IntN(len(o.backups))]
	o.tables = map[string]*table{}
	for id, t := range old {
		o.tables[id] = newTable(t.rows, t.aside, t.sums, t.blobs)
	}
	o.w.forgive()
}
