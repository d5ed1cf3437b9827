package e2e

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestBinary compiles the tests of a package for the browser and serves a page
// that runs them: URL?arg=-test.v&env=NAME=value. The page sets window.code
// when they have ended, and window.said holds what they printed. With "hold" it
// waits until begin() is called.
func TestBinary(t *testing.T, pkg string) (url string) {
	t.Helper()
	wasm := Dist(strings.ReplaceAll(strings.Trim(pkg, "./"), "/", "-") + ".test.wasm")
	if err := goDo([]string{"GOOS=js", "GOARCH=wasm"}, "test", "-c", "-o", wasm, pkg); err != nil {
		t.Fatal(err)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	glue := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js")
	mux := http.NewServeMux()
	mux.HandleFunc("/glue.js", func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, glue) })
	mux.HandleFunc("/test.wasm", func(w http.ResponseWriter, r *http.Request) { http.ServeFile(w, r, wasm) })
	mux.HandleFunc("/favicon.ico", func(http.ResponseWriter, *http.Request) {})
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprint(w, testPage)
	})
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	return server.URL + "/"
}

const testPage = `<!doctype html><title>test</title><script src="/glue.js"></script><script>
window.said = "";
const words = new URLSearchParams(location.search);
const go = new Go();
const decoder = new TextDecoder();
globalThis.fs.writeSync = (fd, data) => { window.said += decoder.decode(data); return data.length; };
go.argv = ["test", ...words.getAll("arg")];
for (const pair of words.getAll("env")) go.env[pair.split("=")[0]] = pair.split("=")[1];
go.exit = (code) => { window.code = code; };
function begin() {
  WebAssembly.instantiateStreaming(fetch("/test.wasm"), go.importObject)
    .then(made => go.run(made.instance))
    .then(() => { if (window.code === undefined) window.code = 0; }, err => { window.said += err; window.code = 2; });
}
if (!words.has("hold")) begin();
</script>`

// Results runs the page at url to its end in a tab and reports each test of it
// as a test of its own.
func (p *Phone) Results(url string) {
	p.T.Helper()
	p.Load(url + "?arg=-test.v")
	p.Until("the tests have ended", `window.code !== undefined`)
	var said string
	var code int
	p.Eval(`window.said`, &said)
	p.Eval(`window.code`, &code)
	ran := 0
	for line := range strings.Lines(said) {
		verdict, name, found := strings.Cut(strings.TrimPrefix(strings.TrimSpace(line), "--- "), ": ")
		if !found || verdict != "PASS" && verdict != "FAIL" && verdict != "SKIP" {
			continue
		}
		ran++
		p.T.Run(strings.Fields(name)[0], func(t *testing.T) {
			if verdict != "PASS" {
				t.Errorf("%s in the browser:\n%s", verdict, said)
			}
		})
	}
	if code != 0 || ran == 0 {
		p.T.Errorf("the tests in the browser ended with %d after %d results:\n%s", code, ran, said)
	}
}

// driven is what a driven page told last.
type driven struct {
	Kept, Found int
	Done, Lost  bool
	Error       string
}

func (p *Phone) driven() (d driven, err error) {
	var text string
	err = p.TryEval(`JSON.stringify(window.driven || {})`, &text)
	if err == nil {
		err = json.Unmarshal([]byte(text), &d)
	}
	return d, err
}
