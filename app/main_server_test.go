//go:build !js

package main

import (
	"strings"
	"testing"
)

func TestCommandLineAnswers(t *testing.T) {
	for _, c := range []struct {
		args       string
		code       int
		out, wrong string // must be in what it says, and in what it complains
	}{
		{"--version", 0, "lugmark " + version, ""},
		{"--help", 0, "lugmark serve", ""},
		{"help", 0, "It ends with 0 when done", ""},
		{"serve --help", 0, "--listen", ""},
		{"demo --help", 0, "--cert", ""},
		{"sources", 0, "voltage-match", ""},
		{"sources --json", 0, `{"check":"hazards-read"`, ""},
		{"sources --markdown", 0, "| `torque` | wire |", ""},
		{"sources --markdown --json", 2, "", "choose one"},
		{"", 2, "", "lugmark serve"},
		{"brew", 2, "", `no command "brew"`},
		{"serve tea", 2, "", `nothing is done with "tea"`},
		{"serve --tea", 2, "", "tea"},
		{"serve --cert only.pem", 1, "", "--cert and --key go together"},
		{"serve --shell testdata/nowhere", 1, "", "the phone app is not in this program"},
	} {
		var out, wrong strings.Builder
		code := runTo(strings.Fields(c.args), &out, &wrong)
		if code != c.code || !strings.Contains(out.String(), c.out) || !strings.Contains(wrong.String(), c.wrong) {
			t.Errorf("lugmark %s: ended with %d, said %q, complained %q", c.args, code, out.String(), wrong.String())
		}
		if c.code == 0 && wrong.Len() > 0 || c.code != 0 && c.wrong == "" {
			t.Errorf("lugmark %s: complained %q", c.args, wrong.String())
		}
	}
}
