package shape

import (
	"encoding/csv"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Table writes a list of structs as a table: comma-separated values by RFC 4180, in UTF-8,
// lines ended by CR and LF, the first with the names of the columns. The columns are the
// keys that [Words.Write] writes: of an object within a row each with the object's key
// before it, as in "unload.from"; a list of words in one cell, joined by "; "; a list of
// objects not at all. Lengths are whole minutes and money is a number, as the names of
// their columns say. Moments are those of the site's clock, such as 2027-05-08 14:32, which
// spreadsheets take for times. A value that isn't there is an empty cell. The error is the
// writer's.
//
// Text that a spreadsheet would run as a formula is guarded; see [Guarded].
func (w *Words) Table(out io.Writer, p *schedule.Plan, rows any) error {
	v := reflect.ValueOf(rows)
	columns := w.columns(p, asWritten(v.Type().Elem()), "", nil)
	c := csv.NewWriter(out)
	c.UseCRLF = true
	var names []string
	for _, x := range columns {
		names = append(names, x.name)
	}
	if err := c.Write(names); err != nil {
		return err
	}
	cells := make([]string, len(columns))
	for i := range v.Len() {
		for k, x := range columns {
			if cells[k] = w.cell(p, x.of(v.Index(i))); !x.figure {
				cells[k] = Guarded(cells[k])
			}
		}
		if err := c.Write(cells); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// runs are the characters with which a cell begins that spreadsheets run, and the wide
// forms of them that some fold: from the advice of OWASP on formula injection, from memory.
const runs = "=+-@\t\r\n＝＋－＠"

// Guarded is text that no spreadsheet runs: text that begins with one of = + - @ or a tab
// or line end, apostrophes before it left aside, gets an apostrophe in front. It reads back
// by taking one apostrophe off wherever, after all apostrophes, one of these follows.
func Guarded(s string) string {
	if bare := strings.TrimLeft(s, "'"); bare != "" && strings.ContainsRune(runs, []rune(bare)[0]) {
		return "'" + s
	}
	return s
}

// column is one column of a table.
type column struct {
	name   string
	path   []int // of fields, from the row on
	figure bool  // it holds numbers: no spreadsheet runs "-30"
}

// of is the value of a column in a row; not valid where an object on the way isn't there.
func (c *column) of(row reflect.Value) reflect.Value {
	for _, i := range c.path {
		if row.Kind() == reflect.Pointer {
			if row.IsNil() {
				return reflect.Value{}
			}
			row = row.Elem()
		}
		if row.Type() == reflect.TypeFor[calendars.Span]() {
			s := row.Interface().(calendars.Span)
			row = reflect.ValueOf(span{s.Start, s.End})
		}
		row = row.Field(i)
	}
	return row
}

// columns are those of a struct.
func (w *Words) columns(p *schedule.Plan, t reflect.Type, before string, path []int) []column {
	var out []column
	for _, f := range fieldsOf(t) {
		of, way := asWritten(f.of), append(slices.Clone(path), f.index)
		_, own := kindOf[of]
		single := own || w.byType[of] != nil
		switch {
		case f.embedded:
			out = append(out, w.columns(p, of, before, way)...)
		case !single && of.Kind() == reflect.Struct:
			out = append(out, w.columns(p, of, before+f.key+".", way)...)
		case !single && of.Kind() == reflect.Slice && asWritten(of.Elem()).Kind() == reflect.Struct:
		default:
			out = append(out, column{before + f.key + unit(p, of, f.key), way, isFigure(of, single)})
		}
	}
	return out
}

// isFigure reports whether a column holds numbers; single are types with a form of their own.
func isFigure(t reflect.Type, single bool) bool {
	if single {
		return slices.Contains([]string{"integer", "number"}, kindOf[t].json)
	}
	return t.Kind() != reflect.String && t.Kind() != reflect.Slice && t.Kind() != reflect.Array && t.Kind() != reflect.Map
}

// unit ends the name of a column of lengths or of money.
func unit(p *schedule.Plan, t reflect.Type, key string) string {
	switch t {
	case reflect.TypeFor[calendars.Minutes](), reflect.TypeFor[Float]():
		if !strings.HasSuffix(key, "minutes") {
			return "_minutes"
		}
	case reflect.TypeFor[schedule.Money]():
		if p.Currency != "" {
			return "_" + p.Currency
		}
	}
	return ""
}

// cell is a value as the text of a cell.
func (w *Words) cell(p *schedule.Plan, v reflect.Value) string {
	for v.IsValid() && v.Kind() == reflect.Pointer {
		v = v.Elem()
	}
	if !v.IsValid() {
		return ""
	}
	switch x := v.Interface().(type) {
	case calendars.Instant:
		return momentText(p, x)
	case calendars.Date:
		if x == 0 {
			return ""
		}
	}
	if plain, own := w.plain(p, v.Interface()); own {
		return textOf(plain)
	}
	switch v.Kind() {
	case reflect.Slice, reflect.Array:
		var words []string
		for i := range v.Len() {
			words = append(words, w.cell(p, v.Index(i)))
		}
		return strings.Join(words, "; ")
	case reflect.Map:
		return w.pairs(p, v)
	}
	return textOf(v.Interface())
}

// momentText is a moment on the site's clock; empty for none.
func momentText(p *schedule.Plan, at calendars.Instant) string {
	if !at.IsReal() || at == 0 {
		return ""
	}
	return at.In(p.Site.Location).Format("2006-01-02 15:04")
}

// pairs is a map as the text of a cell: "joiners 2; planting 1".
func (w *Words) pairs(p *schedule.Plan, v reflect.Value) string {
	var words []string
	for it := v.MapRange(); it.Next(); {
		words = append(words, w.cell(p, it.Key())+" "+w.cell(p, it.Value()))
	}
	slices.Sort(words)
	return strings.Join(words, "; ")
}

// textOf is a text, a number, a truth or nothing as the text of a cell.
func textOf(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case string:
		return v
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return fmt.Sprint(v)
}
