package main

import (
	"archive/tar"
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"path"
	"strconv"
	"strings"

	"turflast/schedule/instances"
)

// item is one instance of a set.
type item struct {
	name     string
	instance *instances.Instance
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
			return items, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		if path.Ext(h.Name) != ".sm" {
			continue
		}
		x, err := instances.ReadSM(t)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", h.Name, err)
		}
		items = append(items, item{strings.TrimSuffix(path.Base(h.Name), ".sm"), x})
	}
}

// bounds are the best known of one instance.
type bounds struct {
	lower, upper int
	proven       bool
}

func readKnown(file string) (map[string]bounds, error) {
	known := make(map[string]bounds)
	if file == "" {
		return known, nil
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	for _, r := range rows[1:] {
		lower, err1 := strconv.Atoi(r[2])
		upper, err2 := strconv.Atoi(r[3])
		if err1 != nil || err2 != nil {
			continue // no schedule exists
		}
		known[r[1]] = bounds{lower, upper, r[4] == "1"}
	}
	return known, nil
}

func writeStarts(file string, rows []row) error {
	var b strings.Builder
	for _, r := range rows {
		b.WriteString(r.name)
		for _, s := range r.starts {
			fmt.Fprintf(&b, ",%d", s)
		}
		b.WriteByte('\n')
	}
	return os.WriteFile(file, []byte(b.String()), 0o644)
}

func runSingle(s settings, out io.Writer) error {
	f, err := os.Open(s.single)
	if err != nil {
		return err
	}
	defer f.Close()
	x, err := instances.ReadSM(f)
	if err != nil {
		return fmt.Errorf("%s: %w", s.single, err)
	}
	r, err := solveOne(s, item{path.Base(s.single), x}, func(starts []int) {
		words := make([]string, len(starts))
		for i, n := range starts {
			words[i] = strconv.Itoa(n)
		}
		fmt.Fprintf(out, "s=[%s]\n", strings.Join(words, ","))
	})
	if err == nil && r.makespan == r.path {
		fmt.Fprintln(out, "==========")
	}
	return err
}
