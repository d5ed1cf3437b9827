package checks

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lugmark/core/finding"
	"lugmark/core/say"
)

// sources parses the Go files, tests left out, of this package ("." alone) or
// of a whole tree.
func sources(t *testing.T, root string) map[string]*ast.File {
	t.Helper()
	files := map[string]*ast.File{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && root == "." && path != ".":
			return filepath.SkipDir
		case d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go"):
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		files[path] = f
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// declared gives the package's variables whose value satisfies is.
func declared(files map[string]*ast.File, is func(ast.Expr) bool) (names []string) {
	for _, f := range files {
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.VAR {
				continue
			}
			for _, s := range g.Specs {
				v := s.(*ast.ValueSpec)
				for i, name := range v.Names {
					if i < len(v.Values) && is(v.Values[i]) {
						names = append(names, name.Name)
					}
				}
			}
		}
	}
	slices.Sort(names)
	return names
}

// isCheck reports whether an expression is &Check{…}.
func isCheck(e ast.Expr) bool {
	u, ok := e.(*ast.UnaryExpr)
	if !ok || u.Op != token.AND {
		return false
	}
	c, ok := u.X.(*ast.CompositeLit)
	if !ok {
		return false
	}
	id, ok := c.Type.(*ast.Ident)
	return ok && id.Name == "Check"
}

func TestEveryCheckIsInTheListOnce(t *testing.T) {
	files := sources(t, ".")
	var listed []string
	declared(files, func(e ast.Expr) bool {
		if c, ok := e.(*ast.CompositeLit); ok {
			if a, ok := c.Type.(*ast.ArrayType); ok {
				if s, ok := a.Elt.(*ast.StarExpr); ok && s.X.(*ast.Ident).Name == "Check" {
					for _, x := range c.Elts {
						listed = append(listed, x.(*ast.Ident).Name)
					}
				}
			}
		}
		return false
	})
	slices.Sort(listed)
	if have := declared(files, isCheck); !slices.Equal(have, listed) || len(listed) != len(All) {
		t.Errorf("declared: %v\nlisted:   %v", have, listed)
	}
}

func TestChecksAreWhole(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z0-9]+)*$`)
	fields := map[string]bool{}
	for _, f := range Fields() {
		fields[f.ID+string(f.Of[0])] = true
		if f.Label.English == "" || !kebab.MatchString(f.ID) {
			t.Errorf("field %q: no label, or its id is not in small letters and hyphens", f.ID)
		}
	}
	before := map[*Check]bool{}
	ids := map[string]bool{}
	for _, c := range All {
		if !kebab.MatchString(c.ID) || ids[c.ID] {
			t.Errorf("%q is no id, or not its own", c.ID)
		}
		if c.Title.English == "" || c.Asks.English == "" || c.Formula == "" || !strings.HasSuffix(c.Asks.English, "?") || len(c.Sources) == 0 || len(c.Fields) == 0 || c.Parts == nil || c.Eval == nil {
			t.Errorf("%s lacks its title, question, formula, sources, fields, parts or rule", c.ID)
		}
		if len(strings.Fields(c.Title.English)) > 6 {
			t.Errorf("%s: %q is a sentence, not a title", c.ID, c.Title.English)
		}
		if c.Title.Key != c.ID+".title" || c.Asks.Key != c.ID+".asks" {
			t.Errorf("%s: keys %s and %s", c.ID, c.Title.Key, c.Asks.Key)
		}
		if !slices.Contains(Stages, c.Stage) {
			t.Errorf("%s stands at stage %q", c.ID, c.Stage)
		}
		for _, f := range c.Fields {
			if len(f.Of) == 0 || !fields[f.ID+string(f.Of[0])] {
				t.Errorf("%s reads %q, which is not in the catalogue", c.ID, f.ID)
			}
		}
		for _, n := range append(append([]*Check(nil), c.Needs...), c.After...) {
			if !before[n] {
				t.Errorf("%s needs %s, which does not stand before it", c.ID, n.ID)
			}
		}
		ids[c.ID], before[c] = true, true
	}
}

func TestARowSaysWhereItComesFrom(t *testing.T) {
	for from, is := range map[string]bool{"": true, "hand": true, "boundary": true, "the rule": true, "boundary:": true,
		"hand: 0.05 + 0.008 ≤ 0.10": false, "common practice, no source": false, "NEC 240.6(A)": false} {
		if got := vague(row{want: finding.Fail, from: from}); got != is {
			t.Errorf("%q: vague is %v", from, got)
		}
	}
	if vague(row{want: finding.ToDo, from: "missing"}) || !vague(row{want: finding.ToDo}) {
		t.Error("where nothing was judged one word is enough, and none is not")
	}
}

func TestFieldsAreToldApart(t *testing.T) {
	of := map[string]bool{}
	for _, f := range Fields() {
		for _, k := range f.Of {
			if of[f.ID+"@"+string(k)] {
				t.Errorf("%s has two fields %q", k, f.ID)
			}
			of[f.ID+"@"+string(k)] = true
		}
	}
	for _, h := range HouseLimits {
		if known(h.Check) == nil {
			t.Errorf("the firm can set a limit of %q, which is no check", h.Check)
		}
	}
}

// Ids are for ever: records hang on them. A new one is added to the file by
// hand; one that is there never changes and never goes.
func TestIDsAreForEver(t *testing.T) {
	raw, err := os.ReadFile("testdata/ids.txt")
	if err != nil {
		t.Fatal(err)
	}
	golden := strings.Split(strings.TrimSpace(string(raw)), "\n")
	var have []string
	for _, c := range All {
		have = append(have, "check "+c.ID)
	}
	for _, id := range FieldIDs() {
		have = append(have, "field "+id)
	}
	slices.Sort(have)
	for _, id := range golden {
		if !slices.Contains(have, id) {
			t.Errorf("%q is gone", id)
		}
	}
	for _, id := range have {
		if !slices.Contains(golden, id) {
			t.Errorf("new: add the line %q to testdata/ids.txt, in its place", id)
		}
	}
	if !slices.IsSorted(golden) || len(slices.Compact(slices.Clone(golden))) != len(golden) {
		t.Error("testdata/ids.txt is not in order, or has a line twice")
	}
}

// phrases collects every say.Phrase literal of core and checks, and what the
// catalogue makes.
func phrases(t *testing.T) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for _, root := range []string{".", filepath.Join("..", "core")} {
		for _, f := range sources(t, root) {
			ast.Inspect(f, func(n ast.Node) bool {
				c, ok := n.(*ast.CompositeLit)
				if !ok {
					return true
				}
				is := map[string]string{}
				for _, e := range c.Elts {
					if kv, ok := e.(*ast.KeyValueExpr); ok {
						if k, ok := kv.Key.(*ast.Ident); ok {
							is[k.Name] = literal(kv.Value)
						}
					}
				}
				if is["Key"] != "" && is["English"] != "" {
					out[is["Key"]] = append(out[is["Key"]], is["English"])
				}
				return true
			})
		}
	}
	add := func(p say.Phrase) {
		if p.Key != "" {
			out[p.Key] = append(out[p.Key], p.English)
		}
	}
	for _, f := range Fields() {
		add(f.Label)
		add(f.Hint)
		for _, o := range f.Options {
			add(o.Label)
		}
	}
	for _, o := range append(slices.Clone(SkipReasons), Skips...) {
		add(o.Label)
	}
	return out
}

// literal reads a string, also one that is put together of literals.
func literal(e ast.Expr) string {
	switch x := e.(type) {
	case *ast.BasicLit:
		s, _ := strconv.Unquote(x.Value)
		return s
	case *ast.BinaryExpr:
		return literal(x.X) + literal(x.Y)
	}
	return ""
}

func TestOneKeyOneSentence(t *testing.T) {
	all := phrases(t)
	if len(all) < 300 {
		t.Errorf("only %d phrases found; the search is broken", len(all))
	}
	for key, english := range all {
		for _, e := range english[1:] {
			if e != english[0] {
				t.Errorf("%s is both %q and %q", key, english[0], e)
			}
		}
	}
}

// Words of other trades, words that promise what nobody measured, and words
// that blame.
var forbidden = regexp.MustCompile(`(?i)\b(modules?|racks?|customers?|errors?|invalid|oops|safe to use)\b|\b(each|every|this|that|your) cell\b|\bcell (\{|[0-9])`)

func TestWordsOfTheHouse(t *testing.T) {
	for _, wrong := range []string{"The rack is warm.", "Each cell rests.", "Cell 3 is low.", "It is safe to use.", "An error."} {
		if !forbidden.MatchString(wrong) {
			t.Errorf("%q is let through", wrong)
		}
	}
	for key, english := range phrases(t) {
		if w := forbidden.FindString(english[0]); w != "" {
			t.Errorf("%s says %q: %q", key, w, english[0])
		}
	}
}
