package cite

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"strings"
	"testing"

	"lugmark/core/say"
)

func ExampleSource_Line() {
	fmt.Println(say.Voice{}.Say(NEC110_14C.Line()))
	fmt.Println(say.Voice{}.Say(NEC310_16.Line()))
	fmt.Println(say.Voice{}.Say(OurRule.Line()))
	fmt.Println(say.Voice{}.Say(CommonPractice.Line()))
	fmt.Println(say.Voice{}.Say(Maker("p. 12").Line()))
	fmt.Println(say.Voice{}.Say(Maker("").Line()))
	// Output:
	// after NEC 110.14(C)
	// after NEC Table 310.16 (2023 edition)
	// our rule, no published source
	// common practice, no source
	// the maker's sheet, p. 12
	// the maker's sheet, page not named
}

func TestZeroSourceSaysNothing(t *testing.T) {
	if l := (Source{}).Line(); !l.Empty() {
		t.Errorf("zero Source says %q", say.Voice{}.Say(l))
	}
}

func TestOnlyADocumentReadInFullIsQuoted(t *testing.T) {
	for level := range Level(len(levelPhrases)) {
		s := Source{ID: "invented", Title: "Invented 1.2", Checked: level}
		bare := say.Voice{}.Say(s.Line()) == "Invented 1.2"
		if bare != (level == ReadInFull) {
			t.Errorf("level %q prints %q", level.Phrase().English, say.Voice{}.Say(s.Line()))
		}
	}
}

func TestNoStandardClaimsToHaveBeenRead(t *testing.T) {
	// Nobody has compared a document yet. Whoever does takes this test out
	// for that source and writes in its Note when and by whom.
	for _, s := range All() {
		if s.Checked == ReadInFull {
			t.Errorf("%s is marked as compared with the document", s.ID)
		}
	}
}

func TestTranslationKeepsTheWarning(t *testing.T) {
	// hand: a catalogue with one key changes that key and nothing else.
	v := say.Voice{Phrases: map[string]string{"cite.after": "nach {source}"}}
	if got := v.Say(NEC110_14C.Line()); got != "nach NEC 110.14(C)" {
		t.Errorf("translated line: %q", got)
	}
}

func TestEverySourceIsListedOnce(t *testing.T) {
	declared := map[string]bool{}
	only := func(i fs.FileInfo) bool { return !strings.HasSuffix(i.Name(), "_test.go") }
	pkgs, err := parser.ParseDir(token.NewFileSet(), ".", only, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range pkgs["cite"].Files {
		ast.Inspect(f, func(n ast.Node) bool {
			kv, ok := n.(*ast.KeyValueExpr)
			if !ok {
				return true
			}
			key, _ := kv.Key.(*ast.Ident)
			lit, _ := kv.Value.(*ast.BasicLit)
			if key == nil || key.Name != "ID" || lit == nil || lit.Value == `"maker"` {
				return true
			}
			id := strings.Trim(lit.Value, `"`)
			if declared[id] {
				t.Errorf("two sources are called %s", id)
			}
			declared[id] = true
			return true
		})
	}
	listed := map[string]bool{}
	for _, s := range All() {
		if listed[s.ID] {
			t.Errorf("%s is listed twice", s.ID)
		}
		listed[s.ID] = true
		if !declared[s.ID] {
			t.Errorf("%s is listed and not declared", s.ID)
		}
		if s.Title == "" {
			t.Errorf("%s has no title", s.ID)
		}
	}
	for id := range declared {
		if !listed[id] {
			t.Errorf("%s is declared and not listed", id)
		}
	}
}

func TestPhraseKeysAreUnique(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range Phrases() {
		if seen[p.Key] {
			t.Errorf("key %s twice", p.Key)
		}
		seen[p.Key] = true
	}
}
