package main

import (
	"archive/tar"
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"strconv"
	"strings"

	"build.example/turflast/schedule/crews/instances"
)

// item is one instance of a set.
type item struct {
	name     string
	instance *instances.Instance
	lagged   bool // it may have longest waits
}

// readItem reads a raw instance; the ending of its file name tells the format.
func readItem(file string, r io.Reader) (item, error) {
	ext := path.Ext(file)
	it := item{name: strings.TrimSuffix(path.Base(file), ext), lagged: ext == ".sch"}
	read := instances.ReadSM
	switch ext {
	case ".sm":
	case ".sch":
		read = instances.ReadSCH
	default:
		return it, fmt.Errorf("%s: expected a file named .sm or .sch", file)
	}
	x, err := read(r)
	var fault *instances.Fault
	if errors.As(err, &fault) {
		return it, fmt.Errorf("%s:%d: %s", file, fault.Line, fault.Text)
	}
	it.instance = x
	return it, err
}

func readSet(file string) ([]item, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	var items []item
	for t := tar.NewReader(z); ; {
		h, err := t.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		if ext := path.Ext(h.Name); ext != ".sm" && ext != ".sch" {
			continue
		}
		it, err := readItem(h.Name, t)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		items = append(items, it)
	}
	if len(items) == 0 {
		return nil, fmt.Errorf("%s: there is no .sm and no .sch file in it", file)
	}
	return items, nil
}

// bounds are the best known of one instance.
type bounds struct {
	lower, upper int
	proven       bool
	none         bool // proven to have no schedule
}

// header is the first row of a file of best known bounds.
const header = "set,instance,lower_bound,upper_bound,proven"

// readKnown reads the best known bounds of a set. A file may hold several sets,
// whose instances may have the same names: the set's file is named after it.
func readKnown(file, set string) (map[string]bounds, error) {
	known := make(map[string]bounds)
	if file == "" {
		return known, nil
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = 5
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != header {
		return nil, fmt.Errorf("%s:1: expected %s", file, header)
	}
	set, _, _ = strings.Cut(path.Base(set), ".")
	for i, row := range rows[1:] {
		if !strings.EqualFold(row[0], set) {
			continue
		}
		if known[row[1]], err = readBounds(row); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", file, i+2, err)
		}
	}
	if len(known) == 0 {
		return nil, fmt.Errorf("%s: nothing is known of a set %s", file, set)
	}
	return known, nil
}

func readBounds(row []string) (bounds, error) {
	if row[2] == "inf" && row[3] == "inf" {
		return bounds{proven: true, none: true}, nil
	}
	lower, err1 := strconv.Atoi(row[2])
	upper, err2 := strconv.Atoi(row[3])
	if row[3] == "" || row[3] == "inf" {
		upper, err2 = 0, nil // no schedule is known
	}
	if err1 != nil || err2 != nil || lower < 0 || upper < 0 {
		return bounds{}, fmt.Errorf("%q and %q are no bounds", row[2], row[3])
	}
	return bounds{lower: lower, upper: upper, proven: row[4] == "1"}, nil
}

func writeStarts(file string, rows []row) error {
	var b strings.Builder
	for _, r := range rows {
		if r.starts == nil {
			continue
		}
		b.WriteString(r.name)
		for _, s := range r.starts {
			fmt.Fprintf(&b, ",%d", s)
		}
		b.WriteByte('\n')
	}
	return os.WriteFile(file, []byte(b.String()), 0o644)
}
