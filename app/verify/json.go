//go:build !js

package verify

import (
	"time"

	"lugmark/core/prove"
	"lugmark/core/record"
	"lugmark/core/seal"
)

// What --json prints: the report, for a program. Times are claims of phones; a
// member that has nothing to say is null or empty, never left out.
type (
	reportJSON struct {
		Sound       bool        `json:"sound"`
		Fingerprint *string     `json:"fingerprint"` // as 26 signs; null: none was given
		Found       *bool       `json:"found"`       // whether a seal has it
		Faults      []faultJSON `json:"faults"`
		Passed      []faultJSON `json:"passed"`
		Jobs        []jobJSON   `json:"jobs"`
	}
	faultJSON struct {
		Line int    `json:"line"` // 0: what is not there has none
		Why  string `json:"why"`
	}
	jobJSON struct {
		ID      string       `json:"id"`
		Title   string       `json:"title"`
		Entries int          `json:"entries"`
		Newer   int          `json:"newer"`
		First   time.Time    `json:"first"`
		Last    time.Time    `json:"last"`
		Phones  []phoneJSON  `json:"phones"`
		Keyless int          `json:"keyless"`
		People  []personJSON `json:"people"`
		Seals   []sealJSON   `json:"seals"`
		Texts   int          `json:"texts"`
		Missing int          `json:"missing"`
	}
	phoneJSON struct {
		Key     string    `json:"key"`
		Soft    bool      `json:"soft"`
		App     string    `json:"app"`
		Runs    int       `json:"runs"`
		Entries int       `json:"entries"`
		First   time.Time `json:"first"`
		Last    time.Time `json:"last"`
	}
	personJSON struct {
		ID      string `json:"id"`
		Name    string `json:"name"`
		Entries int    `json:"entries"`
	}
	sealJSON struct {
		Revision    int            `json:"revision"`
		Fingerprint string         `json:"fingerprint"`
		Line        int            `json:"line"`
		At          time.Time      `json:"at"`
		By          string         `json:"by"`
		Rules       string         `json:"rules"`
		Covers      int            `json:"covers"`
		Since       int            `json:"since"`
		Signed      []signJSON     `json:"signed"`
		Results     map[string]int `json:"results"` // null: the list is not in the file
		Later       bool           `json:"later"`
	}
	signJSON struct {
		Name string    `json:"name"`
		Role string    `json:"role"`
		At   time.Time `json:"at"`
	}
)

func asJSON(r *prove.Report, p seal.Print) reportJSON {
	out := reportJSON{Sound: r.Sound(), Faults: faultsJSON(r.Faults), Passed: faultsJSON(r.Passed), Jobs: []jobJSON{}}
	if p != "" {
		print, found := string(p), len(r.Find(p)) > 0
		out.Fingerprint, out.Found = &print, &found
	}
	for _, j := range r.Jobs {
		x := jobJSON{ID: j.ID, Title: j.Title, Entries: j.Events, Newer: j.Unread, First: j.First, Last: j.Last, Keyless: j.Keyless,
			Texts: j.Blobs, Missing: j.Missing, Phones: []phoneJSON{}, People: []personJSON{}, Seals: []sealJSON{}}
		for _, d := range j.Devices {
			x.Phones = append(x.Phones, phoneJSON{d.Key, d.Soft, d.App, d.Streams, d.Events, d.First, d.Last})
		}
		for _, p := range j.People {
			x.People = append(x.People, personJSON{p.ID, p.Name, p.Events})
		}
		for _, s := range j.Seals {
			y := sealJSON{s.Rev, string(s.Print), s.Line, s.At, s.By, s.Rules, s.Covers, s.Since, []signJSON{}, s.Results, s.Later}
			for _, sign := range s.Signed {
				y.Signed = append(y.Signed, signJSON{sign.Name, sign.Role, sign.At})
			}
			x.Seals = append(x.Seals, y)
		}
		out.Jobs = append(out.Jobs, x)
	}
	return out
}

func faultsJSON(list []record.Fault) []faultJSON {
	out := []faultJSON{}
	for _, f := range list {
		out = append(out, faultJSON{f.Line, f.Why})
	}
	return out
}
