package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// Kinds of change, in the order of the report: limits and other numbers of the
// formulas, signs, comparisons, conditions turned round, figures of a table, and
// the range outside which a typed value is asked about once more.
var Kinds = []string{"limit", "sign", "order", "not", "table", "range"}

// Mutant is one change of one file.
type Mutant struct {
	Package string // "./core/lift"
	File    string // "core/lift/lift.go", as the folder of the package was given
	Line    int
	Column  int
	Kind    string
	Text    string // the line as it stands
	at, end int    // the bytes that are replaced
	old     string
	new     string
	source  string // of the file when it was read; it may be edited since
}

// Change says what becomes of what, in one line: "< to <=".
func (m Mutant) Change() string { return strings.Join(strings.Fields(m.old+" to "+m.new), " ") }

// Apply gives the text of the file with the change in it.
func (m Mutant) Apply() string { return m.source[:m.at] + m.new + m.source[m.end:] }

// Find lists the mutants of a package, its tests left out.
func Find(folder string) ([]Mutant, error) {
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		return nil, err
	}
	var out []Mutant
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		source, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		found, err := FindIn(folder, filepath.ToSlash(name), source)
		if err != nil {
			return nil, err
		}
		out = append(out, found...)
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s has no Go files", folder)
	}
	return out, nil
}

var (
	signs  = map[token.Token]string{token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*", token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+=", token.MUL_ASSIGN: "/=", token.QUO_ASSIGN: "*="}
	orders = map[token.Token]string{token.LSS: "<=", token.LEQ: "<", token.GTR: ">=", token.GEQ: ">"}
)

// FindIn lists the mutants of one file.
func FindIn(folder, name string, source []byte) ([]Mutant, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, err
	}
	whole := string(source)
	lines := strings.Split(whole, "\n")
	var out []Mutant
	add := func(kind string, from, to token.Pos, text string) {
		p := set.Position(from)
		out = append(out, Mutant{Package: folder, File: name, Line: p.Line, Column: p.Column, Kind: kind, Text: strings.TrimSpace(lines[p.Line-1]),
			at: p.Offset, end: set.Position(to).Offset, old: string(source[p.Offset:set.Position(to).Offset]), new: text, source: whole})
	}
	operator := func(at token.Pos, t token.Token, e ast.Node) {
		if text, ok := signs[t]; ok && !words(e) {
			add("sign", at, at+token.Pos(len(t.String())), text)
		}
		if text, ok := orders[t]; ok {
			add("order", at, at+token.Pos(len(t.String())), text)
		}
	}
	condition := func(e ast.Expr) {
		add("not", e.Pos(), e.End(), "!("+string(source[set.Position(e.Pos()).Offset:set.Position(e.End()).Offset])+")")
	}
	var visit func(n ast.Node, kind string)
	visit = func(n ast.Node, kind string) {
		ast.Inspect(n, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.ImportSpec:
				return false
			case *ast.BinaryExpr:
				operator(x.OpPos, x.Op, x)
			case *ast.AssignStmt:
				operator(x.TokPos, x.Tok, x)
			case *ast.UnaryExpr:
				if x.Op == token.SUB && kind != "range" {
					add("sign", x.OpPos, x.OpPos+1, "+")
				}
			case *ast.IfStmt:
				condition(x.Cond)
			case *ast.SwitchStmt:
				if x.Tag == nil {
					for _, c := range x.Body.List {
						for _, e := range c.(*ast.CaseClause).List {
							condition(e)
						}
					}
				}
			case *ast.IndexExpr: // which element is no limit
				visit(x.X, kind)
				return false
			case *ast.SliceExpr:
				visit(x.X, kind)
				return false
			case *ast.CallExpr:
				if s, ok := x.Fun.(*ast.SelectorExpr); ok && (s.Sel.Name == "physics" || digits(s)) {
					visit(s.X, kind)
					for _, a := range x.Args {
						switch {
						case s.Sel.Name == "physics":
							visit(a, "range")
						case !number(a):
							visit(a, kind)
						}
					}
					return false
				}
			case *ast.CompositeLit:
				if kind == "limit" {
					for _, e := range x.Elts {
						visit(e, "table")
					}
					return false
				}
			case *ast.BasicLit:
				if kind == "" && x.Kind != token.FLOAT {
					return true // counts and places within a function
				}
				for _, text := range nearby(x) {
					add(orLimit(kind), x.Pos(), x.End(), text)
				}
			}
			return true
		})
	}
	for _, d := range file.Decls {
		kind := ""
		if g, ok := d.(*ast.GenDecl); ok && (g.Tok == token.CONST || g.Tok == token.VAR) {
			kind = "limit"
		}
		visit(d, kind)
	}
	return out, nil
}

// digits reports whether the plain numbers that a call takes say how many
// digits are shown or written: .round of a field, and every function of strconv
// and figure. Such a number is no limit: with another one the same is said, in
// more or fewer digits. What is worked out among the arguments still counts.
func digits(s *ast.SelectorExpr) bool {
	of, ok := s.X.(*ast.Ident)
	return s.Sel.Name == "round" || ok && (of.Name == "strconv" || of.Name == "figure")
}

// number reports whether an expression is a number as it stands, with a minus
// or without.
func number(e ast.Expr) bool {
	if u, ok := e.(*ast.UnaryExpr); ok && u.Op == token.SUB {
		e = u.X
	}
	l, ok := e.(*ast.BasicLit)
	return ok && (l.Kind == token.INT || l.Kind == token.FLOAT)
}

func orLimit(kind string) string {
	if kind == "" {
		return "limit"
	}
	return kind
}

// nearby gives the numbers a tenth above and below; whole numbers stay whole.
func nearby(l *ast.BasicLit) []string {
	v, err := strconv.ParseFloat(strings.ReplaceAll(l.Value, "_", ""), 64)
	if err != nil || v == 0 {
		return nil
	}
	more, less := v*1.1, v/1.1
	if l.Kind == token.INT {
		more, less = math.Max(math.Floor(more), v+1), math.Min(math.Ceil(less), v-1)
	}
	say := func(x float64) string { return strconv.FormatFloat(x, 'g', 12, 64) }
	if l.Kind == token.INT {
		say = func(x float64) string { return strconv.FormatFloat(x, 'f', 0, 64) }
	}
	return []string{say(more), say(less)}
}

// words reports whether an expression holds a text: its plus is no sum.
func words(n ast.Node) (yes bool) {
	ast.Inspect(n, func(n ast.Node) bool {
		l, ok := n.(*ast.BasicLit)
		yes = yes || ok && l.Kind == token.STRING
		return !yes
	})
	return yes
}

// Draw picks so many, the same ones for the same seed, in the order of the
// files. None or more than there are picks all.
func Draw(all []Mutant, sample int, seed uint64) []Mutant {
	if sample <= 0 || sample >= len(all) {
		return all
	}
	places := rand.New(rand.NewPCG(seed, 0)).Perm(len(all))[:sample]
	slices.Sort(places)
	out := make([]Mutant, len(places))
	for i, p := range places {
		out[i] = all[p]
	}
	return out
}
