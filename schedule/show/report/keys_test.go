package report_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"build.example/turflast/schedule/show/report"
	"build.example/turflast/schedule/show/shape"
)

var update = flag.Bool("update", false, "rewrite JSON.txt")

// JSON.txt is made from the tags of the structs.
func TestKeysAreWrittenDown(t *testing.T) {
	if *update {
		if err := os.WriteFile("JSON.txt", []byte(report.Keys()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("JSON.txt")
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != report.Keys() {
		t.Error("JSON.txt is stale; go test ./schedule/show/report -run KeysAreWrittenDown -update makes it again")
	}
}

// structs are all structs that are written as JSON.
func structs() []reflect.Type {
	var all []reflect.Type
	add := func(s reflect.Type) {
		if s != nil && !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	for _, s := range report.Shapes {
		add(reflect.TypeOf(s.Value))
	}
	for i := 0; i < len(all); i++ {
		for _, k := range report.Kinds.Keys(all[i]) {
			add(k.Of)
		}
	}
	return all
}

// Every key has a name of its own, a type that can be written and a meaning.
func TestEveryKeyHasAMeaning(t *testing.T) {
	names := make(map[string]reflect.Type)
	for _, s := range structs() {
		if was, known := names[s.Name()]; known {
			t.Errorf("%v and %v have one name", was, s)
		}
		names[s.Name()] = s
		seen := make(map[string]bool)
		for _, k := range report.Kinds.Keys(s) {
			if k.Name == "" || seen[k.Name] {
				t.Errorf("%s: the key %q is there twice, or has no name", s.Name(), k.Name)
			}
			seen[k.Name] = true
			if k.JSON == "" || strings.HasSuffix(k.Is, " ") {
				t.Errorf("%s.%s: no words for its type", s.Name(), k.Name)
			}
			if k.Means == "" && k.Const == "" {
				t.Errorf("%s.%s has no meaning", s.Name(), k.Name)
			}
		}
	}
	if len(names) < 50 {
		t.Errorf("only %d structs", len(names))
	}
}

// constants are the constants of a type that its package declares.
func constants(t *testing.T, of reflect.Type) map[string]constant.Value {
	t.Helper()
	dir := filepath.Join("../../..", strings.TrimPrefix(of.PkgPath(), "build.example/turflast"))
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	var files []*ast.File
	fset := token.NewFileSet()
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, f)
	}
	// Constants need no imports, so their faults don't matter.
	check := types.Config{Importer: importer.Default(), Error: func(error) {}}
	p, _ := check.Check(of.PkgPath(), fset, files, nil)
	out := make(map[string]constant.Value)
	for _, name := range p.Scope().Names() {
		c, ok := p.Scope().Lookup(name).(*types.Const)
		if !ok {
			continue
		}
		if named, ok := c.Type().(*types.Named); ok && named.Obj().Name() == of.Name() && named.Obj().Pkg() == p {
			out[name] = c.Val()
		}
	}
	return out
}

// Every constant of an enumeration has a word, and every word a name and a
// meaning of its own. Only a constant that stands for nothing has neither.
func TestEveryKindHasAWord(t *testing.T) {
	for of, words := range report.Kinds.Types() {
		told := make(map[string]bool)
		nothing, names := 0, make(map[string]bool)
		for _, w := range words {
			v := reflect.ValueOf(w.Value)
			var c constant.Value
			if of.Kind() == reflect.String {
				c = constant.MakeString(v.String())
			} else {
				c = constant.MakeUint64(v.Uint())
			}
			told[c.ExactString()] = true
			switch {
			case w.Name == "" && w.Means == "":
				nothing++
			case w.Name == "" || w.Means == "" || names[w.Name]:
				t.Errorf("%v %v: %q, %q", of, w.Value, w.Name, w.Means)
			}
			names[w.Name] = true
		}
		all := constants(t, of)
		for name, c := range all {
			if !told[c.ExactString()] {
				t.Errorf("%v has no word for %s", of, name)
			}
		}
		if nothing > 1 || len(told) != len(words) || len(all) != len(words) {
			t.Errorf("%v: %d constants, %d words, %d of nothing", of, len(all), len(words), nothing)
		}
	}
}

// tester is a test, of random plans or not.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
	Fatal(args ...any)
}

// conforms writes an object and checks it against the documentation: its keys,
// their types, words and nulls. It adds the keys that the object has to seen.
func conforms(t tester, seen map[string]bool, write func(io.Writer) error) any {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	var v any
	if err := json.Unmarshal(b.Bytes(), &v); err != nil {
		t.Fatal(err)
	}
	matches(t, b.Bytes())
	format, _ := v.(map[string]any)["format"].(string)
	for _, s := range report.Shapes {
		of := reflect.TypeOf(s.Value)
		for _, k := range report.Kinds.Keys(of) {
			if k.Name == "format" && k.Const == `"`+format+`"` {
				object(t, seen, of, v)
				return v
			}
		}
	}
	t.Fatalf("nothing is documented of %q", format)
	return nil
}

func object(t tester, seen map[string]bool, of reflect.Type, v any) {
	t.Helper()
	o, ok := v.(map[string]any)
	if !ok {
		t.Errorf("%s isn't an object but %v", of.Name(), v)
		return
	}
	keys := report.Kinds.Keys(of)
	for name := range o {
		if !slices.ContainsFunc(keys, func(k shape.Key) bool { return k.Name == name }) {
			t.Errorf("%s.%s isn't documented", of.Name(), name)
		}
	}
	for i := range keys {
		k := &keys[i]
		x, there := o[k.Name]
		if there {
			seen[of.Name()+"."+k.Name] = true
			under(t, seen, of.Name(), k, x)
		} else if !k.Optional {
			t.Errorf("%s lacks %s", of.Name(), k.Name)
		}
	}
}

// under checks what stands under a key.
func under(t tester, seen map[string]bool, of string, k *shape.Key, x any) {
	t.Helper()
	is := map[reflect.Kind]string{
		reflect.String: "string", reflect.Float64: "number",
		reflect.Bool: "boolean", reflect.Slice: "array", reflect.Map: "object",
	}[reflect.ValueOf(x).Kind()]
	if x == nil && k.Null {
		return
	}
	if is != k.JSON && (is != "number" || k.JSON != "integer") {
		t.Errorf("%s.%s: %v isn't %s", of, k.Name, x, k.JSON)
		return
	}
	items := []any{x}
	if list, many := x.([]any); many {
		items = list
	}
	for _, item := range items {
		switch {
		case k.Of != nil:
			object(t, seen, k.Of, item)
		case k.Words != nil && !slices.ContainsFunc(k.Words, func(w shape.Word) bool { return w.Name == item }):
			t.Errorf("%s.%s: %v is none of its words", of, k.Name, item)
		}
	}
}

// allSeen names the keys of an object, and of all that it holds, that weren't
// written.
func allSeen(t *testing.T, seen map[string]bool, format string) {
	t.Helper()
	var all []reflect.Type
	for _, s := range report.Shapes {
		if keys := report.Kinds.Keys(reflect.TypeOf(s.Value)); keys[0].Const == `"`+format+`"` {
			all = append(all, reflect.TypeOf(s.Value))
		}
	}
	for i := 0; i < len(all); i++ {
		for _, k := range report.Kinds.Keys(all[i]) {
			tasksOnly := all[i].Name() == "deliveryDates" && k.Name == "late_finish"
			if !seen[all[i].Name()+"."+k.Name] && !tasksOnly {
				t.Errorf("%s.%s isn't written", all[i].Name(), k.Name)
			}
			if k.Of != nil && !slices.Contains(all, k.Of) {
				all = append(all, k.Of)
			}
		}
	}
}
