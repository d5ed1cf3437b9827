package main

import (
	"strings"
	"testing"
)

func TestCountCountsPartsOnceAndShowsFailures(t *testing.T) {
	events := `{"Action":"pass","Package":"p","Test":"TestA/one"}
{"Action":"pass","Package":"p","Test":"TestA/two"}
{"Action":"pass","Package":"p","Test":"TestA"}
{"Action":"skip","Package":"p","Test":"TestS"}
{"Action":"pass","Package":"p","Elapsed":0.1}
{"Action":"output","Package":"q","Test":"TestB/x","Output":"13.2 V is not 13.20 V\n"}
{"Action":"fail","Package":"q","Test":"TestB/x"}
{"Action":"pass","Package":"q","Test":"TestB/y"}
{"Action":"fail","Package":"q","Test":"TestB"}
{"Action":"pass","Package":"q","Test":"TestC/z"}
{"Action":"output","Package":"q","Test":"TestC","Output":"left something behind\n"}
{"Action":"fail","Package":"q","Test":"TestC"}
{"Action":"fail","Package":"q"}
{"Action":"build-output","ImportPath":"r [r.test]","Output":"no such name\n"}
{"Action":"fail","Package":"r","FailedBuild":"r [r.test]"}
{"Action":"skip","Package":"without tests"}
`
	var c count
	var said strings.Builder
	c.read(strings.NewReader(events), &said)
	// hand: passed TestA/one, TestA/two, TestB/y, TestC/z; failed TestB/x, TestC itself, the build of r; skipped TestS.
	if c.passed != 4 || c.failed != 3 || c.skipped != 1 {
		t.Errorf("counted %+v, want 4 passed, 3 failed, 1 skipped", c)
	}
	for _, words := range []string{"ok   p", "13.2 V is not 13.20 V", "left something behind", "no such name", "FAIL q", "FAIL r"} {
		if !strings.Contains(said.String(), words) {
			t.Errorf("it does not say %q:\n%s", words, said.String())
		}
	}
}
