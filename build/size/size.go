// Command size prints what the phone app weighs, beside the smallest program
// that go-app makes, built and packed in the same run:
//
//	go run ./build/size          print
//	go run ./build/size -keep    print, and keep the figures in last.json
//
// Counted for the phone app: every file that its worker installs. Counted for
// the other: every file that go-app's own worker installs, but for three icons
// on somebody's server, which would only make it larger. The worker itself is
// counted on neither side. Brotli has the same quality on both.
//
// The test fails when the phone app is more than 1.6 times as large, and says
// what grew since the figures were kept.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/build/pack"
)

// limit is how many times the size of the smallest program the app may be.
const limit = 1.6

// quality is the brotli quality of the comparison: 9 packs the app within
// seconds; the release has 11, a tenth smaller on both sides.
const quality = 9

// weight is the size of one file or of several [bytes].
type weight struct {
	Raw, Gzip, Brotli int
}

func (w weight) plus(v weight) weight {
	return weight{w.Raw + v.Raw, w.Gzip + v.Gzip, w.Brotli + v.Brotli}
}

// set is the files of one app, by path.
type set map[string]weight

func (s set) total() (sum weight) {
	for _, w := range s {
		sum = sum.plus(w)
	}
	return sum
}

func main() {
	keep := flag.Bool("keep", false, "keep the figures in build/size/last.json")
	flag.Parse()
	if err := run(*keep); err != nil {
		fmt.Fprintln(os.Stderr, "size:", err)
		os.Exit(1)
	}
}

func run(keep bool) error {
	ours, hello, err := measure()
	if err != nil {
		return err
	}
	fmt.Print(table(ours, hello))
	if !keep {
		return nil
	}
	packages, err := packageSizes()
	if err != nil {
		return err
	}
	data, err := json.MarshalIndent(figures{Files: ours, Packages: packages}, "", " ")
	if err != nil {
		return err
	}
	return os.WriteFile(lastPath, append(data, '\n'), 0o644)
}

// measure builds and weighs both.
func measure() (ours, hello set, err error) {
	if out, err := exec.Command("go", "run", "./build/phone", "-quality", "5").CombinedOutput(); err != nil {
		return nil, nil, fmt.Errorf("build the phone app: %w\n%s", err, out)
	}
	if ours, err = weighShell("web/shell"); err != nil {
		return nil, nil, err
	}
	hello, err = weighHello()
	return ours, hello, err
}

// weighShell weighs what the worker in dir installs.
func weighShell(dir string) (set, error) {
	worker, err := os.ReadFile(filepath.Join(dir, "worker.js"))
	if err != nil {
		return nil, err
	}
	listed := regexp.MustCompile(`const FILES = (\[\[.*\]\]);`).FindSubmatch(worker)
	if listed == nil {
		return nil, errors.New("the worker has no list of files")
	}
	var files [][2]string
	if err := json.Unmarshal(listed[1], &files); err != nil {
		return nil, err
	}
	all := set{}
	for _, f := range files {
		name := strings.TrimPrefix(f[0], "/")
		if name == "" {
			name = "index.html"
		}
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return nil, err
		}
		if all[f[0]], err = weigh(data); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// weighHello builds the smallest program and weighs what go-app's own worker
// would install of it.
func weighHello() (set, error) {
	out := filepath.Join("build", "dist", "hello.wasm")
	if err := buildHello(out); err != nil {
		return nil, err
	}
	app.Route("/", func() app.Composer { return &page{} })
	handler := &app.Handler{Name: "Hello", Version: "1"}
	get := func(path string) ([]byte, error) {
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
		if w.Code != http.StatusOK {
			return nil, fmt.Errorf("go-app's handler answers %s with %d", path, w.Code)
		}
		return w.Body.Bytes(), nil
	}
	worker, err := get("/app-worker.js")
	if err != nil {
		return nil, err
	}
	listed := regexp.MustCompile(`const resourcesToCache = (\[.*\]);`).FindSubmatch(worker)
	if listed == nil {
		return nil, errors.New("go-app's worker has no list of files where it had one")
	}
	var paths []string
	if err := json.Unmarshal(listed[1], &paths); err != nil {
		return nil, err
	}
	all := set{}
	for _, path := range paths {
		if strings.Contains(path, "://") {
			continue
		}
		var data []byte
		if path == "/web/app.wasm" {
			data, err = os.ReadFile(out)
		} else {
			data, err = get(path)
		}
		if err == nil {
			all[path], err = weigh(data)
		}
		if err != nil {
			return nil, err
		}
	}
	if all["/web/app.wasm"].Raw == 0 {
		return nil, errors.New("go-app's worker does not list the program")
	}
	return all, nil
}

// page is what go-app's handler draws on the first page of hello.
type page struct{ app.Compo }

func (p *page) Render() app.UI { return app.H1().Text("Hello World!") }

func buildHello(out string) error {
	if err := os.MkdirAll(filepath.Dir(out), 0o755); err != nil {
		return err
	}
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w", "-o", out, "./build/size/hello")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	if said, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("build the hello world: %w\n%s", err, said)
	}
	return nil
}

// weigh packs data both ways. A file that does not gain is sent as it is.
func weigh(data []byte) (weight, error) {
	gz, err := pack.Gzip(data)
	if err != nil {
		return weight{}, err
	}
	br, err := pack.Brotli(data, quality)
	if err != nil {
		return weight{}, err
	}
	return weight{len(data), min(len(gz), len(data)), min(len(br), len(data))}, nil
}

// lastPath is where the figures are kept.
const lastPath = "build/size/last.json"

// figures are what was measured when somebody last looked and found it right.
type figures struct {
	Files    set
	Packages map[string]int // code of each package in the app [bytes], unpacked
}

// last returns the kept figures; none are kept in a new tree.
func last() (f figures, err error) {
	data, err := os.ReadFile(lastPath)
	if errors.Is(err, fs.ErrNotExist) {
		return f, nil
	}
	if err == nil {
		err = json.Unmarshal(data, &f)
	}
	return f, err
}
