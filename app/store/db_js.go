//go:build js

package store

import (
	"encoding/base64"
	"fmt"
	"strconv"
	"strings"
	"syscall/js"

	"lugmark/core/job"
)

func eventRecord(e job.Signed) string {
	return e.Stream + " " + strconv.Itoa(e.Seq) + " " + base64.StdEncoding.EncodeToString(e.Sig) + " " + string(e.Raw)
}

func parseEvent(jobID, record string) (job.Signed, error) {
	parts := strings.SplitN(record, " ", 4)
	if len(parts) == 4 {
		seq, err := strconv.Atoi(parts[1])
		sig, err2 := base64.StdEncoding.DecodeString(parts[2])
		if err == nil && err2 == nil {
			return job.Signed{Job: jobID, Stream: parts[0], Seq: seq, Sig: sig, Raw: []byte(parts[3])}, nil
		}
	}
	return job.Signed{}, fmt.Errorf("an event of %s cannot be read back: %.60q", jobID, record)
}

func parseText(record string) (job.Blob, error) {
	parts := strings.SplitN(record, " ", 3)
	if len(parts) == 3 {
		if data, err := base64.StdEncoding.DecodeString(parts[2]); err == nil {
			return job.Blob{Sum: parts[0], Type: parts[1], Data: data}, nil
		}
	}
	return job.Blob{}, fmt.Errorf("a text cannot be read back: %.60q", record)
}

// Job implements [Store].
func (d *DB) Job(id string) ([]job.Signed, []job.Blob, error) {
	var eventLines, textLines string
	err := d.look(func(t *transaction) error {
		all := ofJob(id)
		events := t.store("events").Call("getAll", all)
		texts := t.store("texts").Call("getAll", all)
		got, err := await(events)
		if err != nil {
			return err
		}
		eventLines = got.Call("join", "\n").String()
		// Both were asked before the first wait, and answers come in that order:
		// this one may be here already, or still come.
		if texts.Get("readyState").String() != "done" {
			if _, err := await(texts); err != nil {
				return err
			}
		}
		textLines = texts.Get("result").Call("join", "\n").String()
		return nil
	}, "events", "texts")
	if err != nil {
		return nil, nil, wrap(err, "read job %s", id)
	}
	var signed []job.Signed
	for line := range lines(eventLines, "\n") {
		e, err := parseEvent(id, line)
		if err != nil {
			return nil, nil, wrap(err, "read job %s", id)
		}
		signed = append(signed, e)
	}
	var blobs []job.Blob
	for line := range lines(textLines, "\n") {
		b, err := parseText(line)
		if err != nil {
			return nil, nil, wrap(err, "read job %s", id)
		}
		blobs = append(blobs, b)
	}
	return signed, blobs, nil
}

// lines ranges over what a joined array held; an empty text held nothing.
func lines(joined, separator string) func(func(string) bool) {
	if joined == "" {
		return func(func(string) bool) {}
	}
	return strings.SplitSeq(joined, separator)
}

// ofJob is the range of keys that begin with a job: arrays sort after strings.
func ofJob(id string) js.Value {
	return js.Global().Get("IDBKeyRange").Call("bound",
		js.ValueOf([]any{id}), js.ValueOf([]any{id, []any{}}))
}

// Blob implements [Store].
func (d *DB) Blob(id, sum string) (b job.Blob, there bool, err error) {
	key := js.ValueOf([]any{id, sum})
	file := js.Undefined()
	err = d.look(func(t *transaction) error {
		text, err := await(t.store("texts").Call("get", key))
		if err != nil {
			return err
		}
		if !text.IsUndefined() {
			there = true
			b, err = parseText(text.String())
			return err
		}
		file, err = await(t.store("files").Call("get", key))
		return err
	}, "texts", "files")
	if err == nil && !file.IsUndefined() {
		// Its bytes are promised, so they are read after the transaction.
		var data js.Value
		if data, err = awaitPromise(file.Call("arrayBuffer")); err == nil {
			there = true
			b = job.Blob{Sum: sum, Type: file.Get("type").String(), Data: bytesFromJS(js.Global().Get("Uint8Array").New(data))}
		}
	}
	return b, there, wrap(err, "read blob %s of %s", sum, id)
}

// Summaries implements [Store].
func (d *DB) Summaries() (map[string][]byte, error) { return summaries(d.database) }

func summaries(b *database) (map[string][]byte, error) {
	var ids, texts []string
	err := b.look(func(t *transaction) error {
		// NUL parts the summaries: JSON holds none, and check lets none in.
		for _, ask := range []struct {
			method string
			into   *[]string
		}{{"getAllKeys", &ids}, {"getAll", &texts}} {
			got, err := await(t.store("summaries").Call(ask.method))
			if err != nil {
				return err
			}
			if got.Length() > 0 {
				*ask.into = strings.Split(got.Call("join", "\x00").String(), "\x00")
			}
		}
		return nil
	}, "summaries")
	if err == nil && len(ids) != len(texts) {
		err = fmt.Errorf("%d jobs but %d lines", len(ids), len(texts))
	}
	if err != nil {
		return nil, wrap(err, "read the list of jobs")
	}
	all := make(map[string][]byte, len(ids))
	for i, id := range ids {
		all[id] = []byte(texts[i])
	}
	return all, nil
}

// PutDraft implements [Store].
func (d *DB) PutDraft(key, text string) error {
	return wrap(d.inTurn(func() error {
		t, err := d.write(relaxed, "drafts")
		if err != nil {
			return err
		}
		return t.do(func() error {
			if text == "" {
				t.store("drafts").Call("delete", key)
			} else {
				t.store("drafts").Call("put", text, key)
			}
			return nil
		})
	}), "keep draft %s", key)
}

// Draft implements [Store].
func (d *DB) Draft(key string) (text string, there bool, err error) {
	err = d.look(func(t *transaction) error {
		got, err := await(t.store("drafts").Call("get", key))
		if err == nil && !got.IsUndefined() {
			text, there = got.String(), true
		}
		return err
	}, "drafts")
	return text, there, wrap(err, "read draft %s", key)
}

// Forget implements [Store]: first in the mirror, so that nothing comes back
// from there.
func (d *DB) Forget(id string) error {
	last := token()
	err := d.inTurn(func() error {
		if !d.mirror.possible {
			return forget(d.database, id, last, false)
		}
		later := true
		if m := d.mirror.db.Load(); m != nil {
			later = d.onMirror(func() error { return forget(m, id, last, false) }) != nil
		}
		return forget(d.database, id, last, later)
	})
	if err != nil {
		return wrap(err, "forget %s", id)
	}
	d.announce(id)
	return nil
}

// forget removes a job. With later, it notes that the mirror must still do so.
func forget(b *database, id, last string, later bool) error {
	return b.change(func(t *transaction) error {
		for _, name := range []string{"events", "texts", "files"} {
			t.store(name).Call("delete", ofJob(id))
		}
		t.store("summaries").Call("delete", id)
		// "0" is the character after "/": the range holds what begins with id and a slash.
		t.store("drafts").Call("delete", js.Global().Get("IDBKeyRange").Call("bound", id+"/", id+"0", false, true))
		t.store("keys").Call("put", last, lastMark)
		if later {
			t.store("keys").Call("put", true, forgottenMark+id)
		}
		return nil
	}, "events", "texts", "files", "summaries", "drafts", "keys")
}
