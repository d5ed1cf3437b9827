package rules

import (
	"go/ast"
	"testing"
)

// A table whose rows have a "from" says of every row where its expected value
// comes from.
func TestEveryRowSaysWhereItComesFrom(t *testing.T) {
	tables := 0
	for _, s := range sources(t) {
		if !s.Test {
			continue
		}
		ast.Inspect(s.AST, func(n ast.Node) bool {
			table, ok := n.(*ast.CompositeLit)
			if !ok {
				return true
			}
			at, has := fromOf(table.Type)
			if !has {
				return true
			}
			tables++
			for i, e := range table.Elts {
				if row, ok := e.(*ast.CompositeLit); !ok || unsaid(row, at) {
					t.Errorf("%s: row %d of a table does not say where its value comes from", s.Path, i+1)
				}
			}
			return true
		})
	}
	if tables < 20 {
		t.Errorf("only %d tables were found; the search is broken", tables)
	}
}

// fromOf gives the place of the field from in the rows of a table.
func fromOf(of ast.Expr) (at int, has bool) {
	list, ok := of.(*ast.ArrayType)
	if !ok {
		return 0, false
	}
	row, ok := list.Elt.(*ast.StructType)
	if !ok {
		return 0, false
	}
	for _, f := range row.Fields.List {
		for _, name := range f.Names {
			if name.Name == "from" {
				return at, true
			}
			at++
		}
	}
	return 0, false
}

// unsaid reports whether a row leaves its from empty.
func unsaid(row *ast.CompositeLit, at int) bool {
	empty := func(e ast.Expr) bool {
		l, ok := e.(*ast.BasicLit)
		return ok && (l.Value == `""` || l.Value == "``")
	}
	for _, e := range row.Elts {
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if name, ok := kv.Key.(*ast.Ident); ok && name.Name == "from" {
				return empty(kv.Value)
			}
			at = len(row.Elts) // keyed, and not by from so far
		}
	}
	return at >= len(row.Elts) || empty(row.Elts[at])
}
