// Package zones holds the time zones of the world, so that a plan has the same dates on every
// machine: none has its own asked, which may be older or newer.
//
// zoneinfo.zip is the compiled time zone database of IANA, which is in the public domain, as
// Go ships it.
package zones

import (
	"archive/zip"
	"bytes"
	_ "embed"
	"fmt"
	"io"
	"sync"
	"time"
)

// Release is the release of the database.
const Release = "2025c"

//go:embed zoneinfo.zip
var archive []byte

// files are the database's files by name.
var files = sync.OnceValue(func() map[string]*zip.File {
	r, err := zip.NewReader(bytes.NewReader(archive), int64(len(archive)))
	if err != nil {
		panic(err) // the archive is part of the program
	}
	out := make(map[string]*zip.File, len(r.File))
	for _, f := range r.File {
		out[f.Name] = f
	}
	return out
})

// Load returns the time zone with a name of the database, like Europe/London. The error says
// that there is none.
func Load(name string) (*time.Location, error) {
	f, ok := files()[name]
	if !ok || f.FileInfo().IsDir() {
		return nil, fmt.Errorf("there is no time zone %q", name)
	}
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	return time.LoadLocationFromTZData(name, data)
}
