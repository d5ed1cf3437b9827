package plain

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
)

// Export writes the state of a job at a visit as a plain job file, such that
// the checks say of the file what they say of the state.
//
// What the form has no words for stays out: notes, photos, signatures, what a
// person overrides, samples of parts that left the drawing, and history, but
// for whether a link was on before. Names whose text is gone stay out too. An
// error means that the file would say less than the record in a way that could
// open something: a newer version of the app wrote in it, or an entry does not
// read back.
func Export(state *job.State, blobs job.Blobs, visit string, now time.Time) ([]byte, error) {
	if newer := state.UnknownFields(); len(newer) > 0 {
		return nil, fmt.Errorf("plain: export: a newer version of the app wrote %s", newer[0])
	}
	x := &exporter{state: state, blobs: blobs, visit: visit, now: now, meterOf: map[string]string{}}
	x.begin()
	items, err := x.items()
	if err != nil {
		return nil, err
	}
	for _, i := range items {
		x.put(i)
	}
	raw := x.write()
	if _, faults := Parse(raw); len(faults) > 0 {
		return nil, fmt.Errorf("plain: export: line %d: %w", faults[0].Line, faults[0])
	}
	return raw, nil
}

type exporter struct {
	state   *job.State
	blobs   job.Blobs
	visit   string
	now     time.Time
	bank    *bank.Layout
	meterOf map[string]string
	top     map[string]*node // sections
}

func quoted(s string) *node { return &node{shape: text, text: s} }

// set puts a member into an object, in order of arrival.
func (n *node) set(name string, value *node) {
	n.members = append(n.members, member{name: name, value: value})
}

// at gives the object under a name, made when it is not there.
func (n *node) at(name string) *node {
	if m := n.get(name); m != nil {
		return m
	}
	m := &node{shape: object}
	n.set(name, m)
	return m
}

func (x *exporter) begin() {
	x.top = map[string]*node{"lugmark": quoted(Form), "now": quoted(stamp(x.now)), "visit": quoted(x.visit)}
	for _, name := range []string{"use", "sheets", "parts", "meters", "house", "readings"} {
		x.top[name] = &node{shape: object}
	}
	if e, standing := x.state.Lookup(x.visit, "bank", "layout", true); standing == job.One {
		var l bank.Layout
		if json.Unmarshal(e.Value.Layout, &l) == nil && l.Validate() == nil {
			x.bank = &l
			x.top["layout"] = &node{shape: number, text: string(e.Value.Layout)}
		}
	}
	for _, u := range checks.MeterUses {
		if e, standing := x.state.Get(job.Key{Visit: "v1", Part: "bank", Field: u.Field.ID}); standing == job.One && e.Value.Kind == job.KindText {
			x.meterOf[u.Name] = e.Value.Text
		}
	}
}

// item is one value to write: the nth earlier one, or with 0 the one that holds.
type item struct {
	key   job.Key
	nth   int
	lam   int
	value *node
	none  bool // nothing holds
}

// items gives what there is up to the visit in the order in which it was kept.
func (x *exporter) items() ([]item, error) {
	var out []item
	for _, k := range x.state.Keys() {
		f, hasField := checks.FieldOf(k.Field, k.Part)
		_, isPart := kindOf(k.Part)
		if !hasField || !isPart || f.Kind == checks.Drawing || !isVisit(k.Visit) || later(k.Visit, x.visit) ||
			x.bank != nil && !stands(*x.bank, k.Part) && !(k.Field == "closed" && touches(*x.bank, k.Part)) {
			continue
		}
		list, err := x.itemsOf(k, f)
		if err != nil {
			return nil, fmt.Errorf("plain: export %s: %w", k, err)
		}
		out = append(out, list...)
	}
	slices.SortStableFunc(out, func(a, b item) int {
		return cmp.Or(cmp.Compare(a.lam, b.lam), first(a.key.Field == "closed", b.key.Field == "closed"))
	})
	return unseen(out), nil
}

// first puts what is true of a alone in front: of two phones that wrote at one
// point of the record, the link counts as on before the volts were read.
func first(a, b bool) int {
	switch {
	case a && !b:
		return -1
	case b && !a:
		return 1
	}
	return 0
}

// itemsOf gives the values of one key: those in view, and of a link that is on
// or off the earlier ones too, because a match read while it was on counts for
// nothing.
func (x *exporter) itemsOf(k job.Key, f checks.Field) ([]item, error) {
	live := x.state.Live(k)
	if k.Field == "closed" {
		return x.turns(k, f)
	}
	if len(live) == 0 {
		return nil, nil
	}
	value, err := x.together(live, f)
	if value == nil || err != nil {
		return nil, err
	}
	return []item{{key: k, lam: live[0].Lam, value: value}}, nil
}

// together writes the values in view of one key: one, or those that disagree.
func (x *exporter) together(live []job.Entry, f checks.Field) (*node, error) {
	out := &node{shape: list}
	for i, e := range live {
		if i > 0 && len(out.items) == 1 && !slices.ContainsFunc(live, func(r job.Entry) bool { return !job.Agree(live[0].Value, r.Value) }) {
			break // all say the same
		}
		n, err := x.value(e, f)
		if err != nil {
			return nil, err
		}
		if n != nil {
			out.items = append(out.items, n)
		}
	}
	switch len(out.items) {
	case 0:
		return nil, nil
	case 1:
		return out.items[0], nil
	}
	return out, nil
}

// put writes one value to where it belongs.
func (x *exporter) put(i item) {
	f, _ := checks.FieldOf(i.key.Field, i.key.Part)
	switch {
	case i.nth > 0:
		x.top["readings"].set(fmt.Sprintf("%s#%d", shortKey(i.key), i.nth), i.value)
	case i.key.Visit != "v1" || !f.Setup:
		x.top["readings"].set(shortKey(i.key), i.value)
	default:
		kind, _ := bank.PartKind(i.key.Part)
		x.setup(i.key, kind, i.value)
	}
}

// setup puts an entry of the first visit under the name that people look for.
func (x *exporter) setup(k job.Key, kind bank.Kind, value *node) {
	switch {
	case k.Part == "site" && k.Field == "name":
		x.top["title"] = value
	case kind == bank.KindSheet:
		x.top["sheets"].at(k.Part).set(k.Field, value)
	case kind == bank.KindBlock && k.Field == "sheet" && value.shape == text:
		sheet := x.top["sheets"].at(value.text)
		if sheet.get("blocks") == nil {
			sheet.set("blocks", &node{shape: list})
		}
		blocks := sheet.get("blocks")
		blocks.items = append(blocks.items, quoted(k.Part))
	case kind == bank.KindMeter || kind == bank.KindWrench:
		x.top["meters"].at(k.Part).set(k.Field, value)
	case kind == bank.KindHouse:
		check, name, _ := strings.Cut(k.Field, ".")
		x.top["house"].at(check).set(name, value)
	case kind == bank.KindBank && strings.HasPrefix(k.Field, "use-"):
		for _, u := range checks.MeterUses {
			if u.Field.ID == k.Field {
				x.top["use"].set(u.Name, value)
			}
		}
	default:
		x.top["parts"].at(k.Part).set(k.Field, value)
	}
}

// write gives the file, indented, its sections in their order.
func (x *exporter) write() []byte {
	root := &node{shape: object}
	for _, s := range sections {
		if n := x.top[s.name]; n != nil && (n.shape != object || len(n.members) > 0) {
			root.set(s.name, n)
		}
	}
	var b bytes.Buffer
	if err := json.Indent(&b, root.append(nil), "", "  "); err != nil {
		return nil // Parse will refuse it
	}
	b.WriteByte('\n')
	return b.Bytes()
}

// append writes n as JSON; a number stands as it is.
func (n *node) append(b []byte) []byte {
	switch n.shape {
	case object:
		b = append(b, '{')
		for i, m := range n.members {
			if i > 0 {
				b = append(b, ',')
			}
			b = append(appendText(b, m.name), ':')
			b = m.value.append(b)
		}
		return append(b, '}')
	case list:
		b = append(b, '[')
		for i, item := range n.items {
			if i > 0 {
				b = append(b, ',')
			}
			b = item.append(b)
		}
		return append(b, ']')
	case text:
		return appendText(b, n.text)
	}
	return append(b, n.text...)
}

func appendText(b []byte, s string) []byte {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	if e.Encode(s) != nil { // a text always encodes
		return append(b, `""`...)
	}
	return append(b, bytes.TrimRight(out.Bytes(), "\n")...)
}
