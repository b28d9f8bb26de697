package planfile_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// reporters are the functions of the package that make a problem, with the
// index of the argument that is its text.
var reporters = map[string]int{
	"fault": 2, "warn": 2, "report": 3, "problem": 2, "bad": 0, "refuse": 0,
}

// elsewhere are texts that other tests than the table of bad plans check:
// limits, characters, failing readers.
var elsewhere = []string{
	"the text is no YAML near here", // no slip was found: what people write has one
	"public holidays",               // years out of the range of the holidays can't be written
}

// TestEveryProblemHasACase finds the text of every problem in the source and
// looks for a case that it stands in.
func TestEveryProblemHasACase(t *testing.T) {
	var wants strings.Builder
	for _, c := range badCases(t) {
		wants.WriteString(c.want)
	}
	for _, c := range limitCases() {
		wants.WriteString(c.want + "\n")
	}
	for _, c := range badPrices {
		wants.WriteString(c.want + "\n")
	}
	texts := problemTexts(t)
	if len(texts) < 100 {
		t.Fatalf("only %d texts found in the source", len(texts))
	}
	for at, text := range texts {
		if !regexp.MustCompile(pattern(text)).MatchString(wants.String()) && !slices.Contains(elsewhere, text) {
			t.Errorf("%s: no case for %q", at, text)
		}
	}
}

// problemTexts are the texts given to the reporters, by their place.
func problemTexts(t *testing.T) map[string]string {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	set := token.NewFileSet()
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			k, ok := reporters[called(call)]
			if !ok || k >= len(call.Args) {
				return true
			}
			if lit, ok := call.Args[k].(*ast.BasicLit); ok && lit.Kind == token.STRING {
				text, err := strconv.Unquote(lit.Value)
				if err != nil {
					t.Fatal(err)
				}
				texts[set.Position(lit.Pos()).String()] = text
			}
			return true
		})
	}
	return texts
}

func called(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

var verb = regexp.MustCompile(`%[0-9]*[a-z]`)

// pattern matches what a format makes.
func pattern(format string) string {
	var b strings.Builder
	for i, part := range verb.Split(format, -1) {
		if i > 0 {
			b.WriteString(`[^\n]*`)
		}
		b.WriteString(regexp.QuoteMeta(part))
	}
	return b.String()
}
