package main

import (
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
)

// packageSizes builds the app with its names and returns the bytes of code of
// each package in it.
func packageSizes() (map[string]int, error) {
	out := filepath.Join("build", "dist", "named.wasm")
	if said, err := exec.Command("go", "run", "./build/phone", "-named", out).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("build the phone app with names: %w\n%s", err, said)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		return nil, err
	}
	return codeByPackage(data)
}

// codeByPackage reads a WebAssembly module (core specification 2.0, chapter 5,
// "Binary Format"): section 2 has the imported functions, section 10 the bodies
// of the others, and the custom section "name", subsection 1, what each is called.
func codeByPackage(wasm []byte) (map[string]int, error) {
	if len(wasm) < 8 || string(wasm[:4]) != "\x00asm" {
		return nil, errors.New("this is no WebAssembly")
	}
	r := reader{data: wasm[8:]}
	imported := 0
	var bodies []int
	var names map[int]string
	for len(r.data) > 0 && r.err == nil {
		id := r.byte()
		section := reader{data: r.take(r.number())}
		switch id {
		case 2:
			imported = section.importedFunctions()
		case 10:
			for range section.number() {
				n := section.number()
				section.take(n)
				bodies = append(bodies, n)
			}
		case 0:
			if string(section.take(section.number())) == "name" {
				names = section.functionNames()
			}
		}
		if section.err != nil {
			return nil, fmt.Errorf("section %d: %w", id, section.err)
		}
	}
	if r.err != nil || len(bodies) == 0 || names == nil {
		return nil, fmt.Errorf("the module has no code or no names (%v)", r.err)
	}
	sizes := map[string]int{}
	for i, n := range bodies {
		sizes[packageOf(names[imported+i])] += n
	}
	return sizes, nil
}

// packageOf returns the package of a function as the linker writes names, with
// "_" for whatever is no letter, digit or dot: "lugmark_app_screen" of
// "lugmark_app_screen.__root_.Render".
func packageOf(function string) string {
	for _, made := range []string{"type_.eq.", "type_.hash."} { // by the compiler, for a type
		function = strings.TrimPrefix(function, made)
	}
	from := 0
	if host := hosted.FindString(function); host != "" {
		from = len(host)
	}
	dot := strings.IndexByte(function[from:], '.')
	if from+dot <= 0 || dot < 0 {
		return "other"
	}
	return function[:from+dot]
}

// hosted matches the first part of a package that comes from elsewhere; its dot
// parts no function from a package.
var hosted = regexp.MustCompile(`^[a-z0-9]+\.(com|org|net|dev|io|in)_`)

// reader reads a module piece by piece; after the first error all is zero.
type reader struct {
	data []byte
	err  error
}

func (r *reader) take(n int) []byte {
	if n < 0 || n > len(r.data) {
		r.err = errors.New("it ends too early")
		r.data = nil
		return nil
	}
	piece := r.data[:n]
	r.data = r.data[n:]
	return piece
}

func (r *reader) byte() byte {
	if b := r.take(1); b != nil {
		return b[0]
	}
	return 0
}

// number reads an unsigned LEB128, which is what Go calls a uvarint.
func (r *reader) number() int {
	n, size := binary.Uvarint(r.data)
	if size <= 0 {
		r.err = errors.New("a number is broken")
		r.data = nil
		return 0
	}
	r.take(size)
	return int(n)
}

// importedFunctions counts the functions among the imports; they come first in
// the numbering.
func (r *reader) importedFunctions() (functions int) {
	for range r.number() {
		r.take(r.number()) // module
		r.take(r.number()) // name
		switch r.byte() {
		case 0:
			functions++
			r.number() // its type
		case 1: // table: element type, limits
			r.byte()
			r.limits()
		case 2: // memory
			r.limits()
		case 3: // global: type, mutability
			r.take(2)
		}
	}
	return functions
}

func (r *reader) limits() {
	bounded := r.byte()
	r.number()
	if bounded&1 != 0 {
		r.number()
	}
}

func (r *reader) functionNames() map[int]string {
	names := map[int]string{}
	for len(r.data) > 0 && r.err == nil {
		id := r.byte()
		part := reader{data: r.take(r.number())}
		if id != 1 {
			continue
		}
		for range part.number() {
			i := part.number()
			names[i] = string(part.take(part.number()))
		}
		r.err = errors.Join(r.err, part.err)
	}
	return names
}
