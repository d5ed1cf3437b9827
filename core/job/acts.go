package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"
)

// Stamp is the moment and the name of an event to be: both come from outside.
type Stamp struct {
	Now time.Time // with the offset of the place
	ID  string    // UUIDv7
}

// Set puts a value into a field. Saw is what [State.Seen] said when the field
// was shown; a rival that its author did not see stays a rival. Of more than
// [MaxSup] the first are superseded, and the others stay in view. To undo a
// correction, set the old value again.
func (w *Writer) Set(at Stamp, k Key, v Value, saw []string) (Stamped, error) {
	return w.Stamp(at.Now, at.ID, k, Set{v}, first(saw))
}

func first(saw []string) []string { return saw[:min(len(saw), MaxSup)] }

// SetQuantity keeps a reading that was typed: the number as it stands on the
// screen, its unit, and the meter, "" if none was entered.
func (w *Writer) SetQuantity(at Stamp, k Key, number, unit, meter string, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindQuantity, Number: number, Unit: unit, Meter: meter, Source: "typed"}, saw)
}

// SetChoice keeps one choice.
func (w *Writer) SetChoice(at Stamp, k Key, choice string, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindChoice, Choice: choice}, saw)
}

// SetChoices keeps what was ticked in a list, which may be nothing.
func (w *Writer) SetChoices(at Stamp, k Key, choices []string, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindChoices, Choices: sorted(choices)}, saw)
}

// SetText keeps a text that says nothing about a person: a serial, a model.
func (w *Writer) SetText(at Stamp, k Key, text string, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindText, Text: text}, saw)
}

// SetPersonal keeps a name, an address, anything that a person may want erased.
// The blob goes into the same act as the event.
func (w *Writer) SetPersonal(at Stamp, k Key, text string, random [Salt]byte, saw []string) (Stamped, Blob, error) {
	blob, x := Personal(text, random)
	s, err := w.Set(at, k, Value{Kind: KindPersonal, X: x}, saw)
	return s, blob, err
}

// SetTime keeps a time with its offset (RFC 3339), or a day.
func (w *Writer) SetTime(at Stamp, k Key, text string, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindTime, Time: text}, saw)
}

// SetLayout keeps the layout of the bank: one JSON object without blanks.
func (w *Writer) SetLayout(at Stamp, k Key, layout json.RawMessage, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindLayout, Layout: layout}, saw)
}

// Skip leaves a field out for a reason. Until may be ""; x, the reason in a
// person's words, may be the zero Ref. Measuring later supersedes the skip.
func (w *Writer) Skip(at Stamp, k Key, how, why, until string, x Ref, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindSkip, Skip: how, Why: why, Until: until, X: x}, saw)
}

// Override lets who open a gate against verdicts, each named check@part, for a
// written reason x. The verdicts stay what they are.
func (w *Writer) Override(at Stamp, k Key, verdicts []string, who string, x Ref, saw []string) (Stamped, error) {
	return w.Set(at, k, Value{Kind: KindOverride, Over: sorted(verdicts), Who: who, X: x}, saw)
}

// Choose settles a conflict in favour of one of the rivals that its author saw.
func (w *Writer) Choose(at Stamp, k Key, chosen string, saw []string) (Stamped, error) {
	for _, e := range w.state.History(k) {
		if e.ID == chosen {
			others := slices.DeleteFunc(slices.Clone(saw), func(id string) bool { return id == chosen })
			return w.Stamp(at.Now, at.ID, k, Choose{e.Value, chosen}, first(append([]string{chosen}, others...)))
		}
	}
	return Stamped{}, fmt.Errorf("job: choose %s: no value of %s", chosen, k)
}

// Void takes events out of view for a reason. The zero Key is for what has no
// field; x may be the zero Ref.
func (w *Writer) Void(at Stamp, k Key, why string, x Ref, events []string) (Stamped, error) {
	return w.Stamp(at.Now, at.ID, k, Void{why, x}, events)
}

// Note keeps what a person wrote about a part.
func (w *Writer) Note(at Stamp, part, text string, random [Salt]byte) (Stamped, Blob, error) {
	blob, x := Personal(text, random)
	s, err := w.Stamp(at.Now, at.ID, Key{}, Note{part, x}, nil)
	return s, blob, err
}

// Photo keeps a picture of a part. Its blob goes into the same act.
func (w *Writer) Photo(at Stamp, p Photo) (Stamped, error) {
	return w.Stamp(at.Now, at.ID, Key{}, p, nil)
}

// Start says what the record is about; it is the first event of a job.
func (w *Writer) Start(at Stamp, kind string) (Stamped, error) {
	return w.Stamp(at.Now, at.ID, Key{}, Start{Kind: kind, App: w.open.App}, nil)
}

// Sign keeps a person's signature under results. It supersedes what the same
// person signed in the same role since the last seal.
func (w *Writer) Sign(at Stamp, s Sign) (Stamped, error) {
	var sup []string
	for _, was := range w.state.UnsealedSigns() {
		if was.Body.Who == s.Who && was.Body.Role == s.Role {
			sup = append(sup, was.ID)
		}
	}
	return w.Stamp(at.Now, at.ID, Key{}, s, first(sup))
}

// Seal closes a handover over everything that the state holds. It comes after
// the signatures, and is refused when one of them is under other results, or
// when there is none. A later seal supersedes the one before.
func (w *Writer) Seal(at Stamp, digest string, results Ref, rules string) (Stamped, error) {
	rev, sup := 1, []string(nil)
	if last, ok := w.state.SealedAt(); ok {
		rev = last.Body.Rev + 1
		for _, seal := range inView(w.state.Seals()) {
			sup = append(sup, seal.ID)
		}
	}
	signs := w.state.UnsealedSigns()
	if len(signs) == 0 {
		return Stamped{}, fmt.Errorf("job: seal %s: nobody has signed these results", at.ID)
	}
	for _, s := range signs {
		if s.Body.Digest != digest {
			return Stamped{}, fmt.Errorf("job: seal %s: %s signed other results", at.ID, s.Body.Who)
		}
	}
	return w.Stamp(at.Now, at.ID, Key{}, Seal{rev, w.state.Frontier(), digest, results, rules}, sup)
}

// UnsealedSigns returns the signatures in view that the seal in force does not
// cover.
func (s *State) UnsealedSigns() []Item[Sign] {
	seal, ok := s.SealedAt()
	if !ok {
		return s.Signs()
	}
	changed, err := s.ChangedSince(seal.ID)
	if err != nil {
		return s.Signs()
	}
	return slices.DeleteFunc(s.Signs(), func(sign Item[Sign]) bool {
		return !slices.ContainsFunc(changed, func(e Event) bool { return e.ID == sign.ID })
	})
}
