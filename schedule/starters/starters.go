// Package starters composes the text of a plan from elements of garden building, such
// as a deck or a rill, on ground that may be dug or on ground that may not. What it
// writes is a plan to change: each figure has a comment that says where it comes from,
// and each guess one that calls it so.
//
// Lorries are booked for what a first programme wants ([Book]); who solves it is the
// caller's affair.
package starters

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// Ground is what the ground of the plot allows.
type Ground string

// The grounds: one that may be dug, and one in which nothing may be, so that everything
// stands on it.
const (
	Dug       Ground = "dug"
	Protected Ground = "protected"
)

// Grounds are the grounds there are.
func Grounds() []Ground { return []Ground{Dug, Protected} }

// Garden is what a plan is written for.
type Garden struct {
	Name     string
	Elements []Chosen // at least one, each element once
	Ground   Ground
	Place    Place
	Opens    calendars.Instant
	Handover calendars.Instant
	Hours    calendars.WeekHours // of the site; without any hours: a guess
	Guessed  []string            // of "dates" and "region", those that nobody gave
	Crews    map[string]int
	Past     []PastRate // of a garden that was built, in place of the elements' own; may be nil
	// Arrivals are the moments for which lorries are booked, by their ids; nil for a plan
	// without lorries.
	Arrivals map[string]calendars.Instant
}

// Place is where the garden is built.
type Place struct {
	Region   string // ISO 3166, of the public holidays
	Zone     string // of the time zone database
	Currency string // ISO 4217
	Location *time.Location
	Closed   func(calendars.Date) bool // whether it is a public holiday
}

// Chosen is an element with its size, in the element's unit.
type Chosen struct {
	*Element
	Size float64
}

// Element is one thing that gardens are built of.
type Element struct {
	Name  string
	What  string  // in a few words
	Unit  string  // of its size: a measure or what is counted, in the plural
	one   string  // what is counted, in the singular; empty for a measure
	Usual float64 // its size when nobody gives one
	Most  float64 // the greatest size that one plan of a few days makes sense for
	zone  string
	parts func(size float64, on Ground) part
}

// part is what an element brings into a plan.
type part struct {
	works   []work
	lorries []lorry
}

// work is a task of a plan to be.
type work struct {
	id, name, stage string
	zone            string // the element's without it
	crew            string
	least, most     int     // heads; most is 0 where there is no choice
	amount          float64 // with unit and rate
	unit            string
	rate            float64 // of the unit in a person-hour
	hours           float64 // person-hours, in place of an amount
	takes           string  // in place of both
	spread          bool    // a guess of the best and the worst is written
	after           []string
	uses            []string
	cure            string
	weather         string
	hazards         string
	hold            string // as YAML
	machine         string
	clears          bool // the zone on its way in
	more            string
	why             string // where its figures come from
}

// lorry is a delivery of a plan to be.
type lorry struct {
	id, what string
	unload   string
	crew     string
	heads    int
	machine  string
	keep     string // of living stock
	aged     string
	ahead    string // order_ahead
	late     bool
	approve  string // what is approved before it is ordered; empty for nothing
	why      string
}

// Find is an element by its name; the error names the nearest one.
func Find(name string) (*Element, error) {
	all := Elements()
	names := make([]string, len(all))
	for i, e := range all {
		if names[i] = e.Name; e.Name == name {
			return e, nil
		}
	}
	text := fmt.Sprintf("no element is called %q", name)
	if near := cmp.Or(otherNames[strings.ToLower(name)], schedule.Nearest(name, names)); near != "" {
		text += fmt.Sprintf("; did you mean %q?", near)
	} else {
		text += "; there are " + strings.Join(names, ", ")
	}
	return nil, errors.New(text)
}

// sized is an element's part with its zone put into each task.
func (c Chosen) sized(on Ground) part {
	p := c.parts(c.Size, on)
	for i := range p.works {
		if w := &p.works[i]; w.zone == "" {
			w.zone = c.zone
		}
	}
	return p
}

// Fits is an error that says which crew is too small for which task.
func (g *Garden) Fits() error {
	for _, w := range g.works() {
		if have := g.heads(w.crew); have < w.least {
			return fmt.Errorf("%s=%d is too few: %q takes %d of them", w.crew, have, w.name, w.least)
		}
	}
	return nil
}

// works are all tasks of the garden, those in common before and after the elements'.
func (g *Garden) works() []work {
	all := g.opening()
	for _, e := range g.Elements {
		all = append(all, e.sized(g.Ground).works...)
	}
	return append(all, g.closing(all)...)
}

// lorries are all deliveries of the elements.
func (g *Garden) lorries() []lorry {
	var all []lorry
	for _, e := range g.Elements {
		all = append(all, e.sized(g.Ground).lorries...)
	}
	return all
}

// heads is how many a crew has.
func (g *Garden) heads(crew string) int {
	if n, given := g.Crews[crew]; given {
		return n
	}
	k := slices.IndexFunc(crews, func(c team) bool { return c.id == crew })
	return crews[k].usual
}

// team is a crew as plans begin with it.
type team struct {
	id, name string
	usual    int
}

var crews = []team{
	{"ground", "Ground crew", 4},
	{"masons", "Masons", 3},
	{"joiners", "Joiners", 3},
	{"fitters", "Water and light fitters", 2},
	{"planting", "Planting crew", 5},
}

// CrewNames are the ids of the crews there are.
func CrewNames() []string {
	names := make([]string, len(crews))
	for i, c := range crews {
		names[i] = c.id
	}
	return names
}
