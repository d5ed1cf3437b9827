package main

import (
	"os"
	"strings"
	"testing"
)

// The tools work at the top of the module.
func TestMain(m *testing.M) {
	if err := os.Chdir("../.."); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}

func TestPhoneAppIsSmallEnough(t *testing.T) {
	ours, hello, err := measure()
	if err != nil {
		t.Fatal(err)
	}
	t.Log("\n" + table(ours, hello))
	if ratio(ours, hello) <= limit {
		return
	}
	was, err := last()
	if err != nil {
		t.Fatal(err)
	}
	packages, err := packageSizes()
	if err != nil {
		t.Fatal(err)
	}
	t.Errorf("the phone app is %.3f × the hello world, over %.1f ×. What grew:\n%s",
		ratio(ours, hello), limit, grown(was, figures{ours, packages}))
}

func TestPackageOfAFunction(t *testing.T) {
	for function, want := range map[string]string{
		"lugmark_app_screen.__root_.Render":   "lugmark_app_screen",
		"runtime.mallocgc":                    "runtime",
		"slices.SortFunc_go.shape.__a_b.C_":   "slices",
		"type_.eq.lugmark_core_bank.Position": "lugmark_core_bank",
		"wasm_pc_f_loop":                      "other",
		"":                                    "other",
		"github.com_maxence_charriere_go_app_v10_pkg_app.Div": "github.com_maxence_charriere_go_app_v10_pkg_app",
		"pgregory.net_rapid.Check":                            "pgregory.net_rapid",
	} {
		if got := packageOf(function); got != want {
			t.Errorf("%s: %q, want %q", function, got, want)
		}
	}
}

func TestGrownSaysWhatGrewMost(t *testing.T) {
	was := figures{set{"/app.wasm": {Brotli: 100}}, map[string]int{"a": 10, "b": 10, "gone": 5}}
	is := figures{set{"/app.wasm": {Brotli: 150}, "/new.css": {Brotli: 7}}, map[string]int{"a": 10, "b": 99}}
	lines := strings.Split(strings.TrimSpace(grown(was, is)), "\n")
	if len(lines) != 3 || !strings.Contains(lines[0], "b (code)") || !strings.Contains(lines[1], "/app.wasm") || !strings.Contains(lines[2], "/new.css") {
		t.Errorf("got %q", lines)
	}
	if got := grown(is, is); !strings.Contains(got, "nothing grew") {
		t.Errorf("the same twice: %q", got)
	}
}

// A module written by hand after the specification: one imported function, two
// bodies of 2 and 4 bytes, named.
func TestCodeByPackage(t *testing.T) {
	module := "\x00asm\x01\x00\x00\x00" +
		"\x02\x07\x01\x01m\x01f\x00\x00" + // imports: m.f, a function of type 0
		"\x0a\x09\x02\x02\x00\x0b\x04\x00\x01\x01\x0b" + // code
		"\x00\x17\x04name\x01\x10\x03\x00\x01f\x01\x03a.b\x02\x05c_d.e" // names of functions 0, 1 and 2
	got, err := codeByPackage([]byte(module))
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || got["a"] != 2 || got["c_d"] != 4 {
		t.Errorf("got %v, want a: 2, c_d: 4", got)
	}
	for n := range len(module) {
		codeByPackage([]byte(module[:n])) // cut anywhere, it must not panic
	}
}
