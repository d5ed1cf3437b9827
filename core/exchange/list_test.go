package exchange

import "testing"

func TestAListSaysWhereNothingHappened(t *testing.T) {
	o := &office{}
	p := newPhone(newAuthor(t, 1).writes(3)...)
	p.round(t, o)
	other := (&office{}).log()
	other.Job = "019ab3c0-1d00-7000-8000-000000000002"
	data := EncodeList([]Message{other.Brief(), o.log().Brief()})
	list, err := DecodeList(data)
	if err != nil || len(list) != 2 {
		t.Fatalf("%d, %v", len(list), err)
	}
	p.Begin()
	for _, m := range list {
		p.Heard(m)
	}
	if ask := p.Next(); ask.Kind != Nothing {
		t.Errorf("it asks %+v", ask)
	}
	whole := o.rows
	o.rows = whole[:1] // restored
	p.Begin()
	p.Heard(o.log().Brief())
	ask := p.Next()
	if ask.Message.Kind != Push {
		t.Fatalf("it asks %+v", ask)
	}
	p.Answer(ask, o.answer(t, ask, nil))
	if ask := p.Next(); len(ask.Message.Events) != 2 {
		t.Errorf("it asks %+v", ask)
	}
	o.rows, o.aside = whole, newAuthor(t, 2).writes(1) // something stands aside since
	p.Begin()
	p.Heard(o.log().Brief())
	if ask := p.Next(); ask.Message.Kind != Push {
		t.Errorf("it asks %+v", ask)
	}
	never := newPhone()
	never.Heard((&office{}).log().Brief())
	if ask := never.Next(); ask.Message.Kind != Push {
		t.Errorf("who never heard of a job asks %+v", ask)
	}
	for name, bad := range map[string][]byte{
		"cut off":       data[:len(data)-1],
		"an empty line": append([]byte("\n"), data...),
		"another kind":  Encode(Message{Kind: Push, Job: testJob}),
		"too long":      make([]byte, MaxBytes+1),
	} {
		if _, err := DecodeList(bad); err == nil {
			t.Errorf("%s is read", name)
		}
	}
	if list, err := DecodeList(nil); err != nil || len(list) != 0 {
		t.Errorf("no jobs: %v, %v", list, err)
	}
}
