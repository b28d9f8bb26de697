package feed

import (
	"cmp"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"time"
)

const ledgerFormat = "turflast.calendar"

// LedgerVersion is the newest version of the file of a ledger that is read, and the one
// that is written.
const LedgerVersion = 1

// Ledger is what calendars have been told of a plan: each entry that there ever was, with
// its revision. It is kept as a file.
type Ledger struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	// Plan is the plan's own part of all identifiers. It stays, whatever is renamed or moved.
	Plan    string   `json:"plan"`
	Entries []Record `json:"entries"` // by key
}

// Record is an entry in the ledger, with what a calendar must be told to call it off.
type Record struct {
	Key      string    `json:"key"`
	Kind     Kind      `json:"kind"`
	Sequence int64     `json:"sequence"`       // goes up with each change
	Changed  time.Time `json:"changed"`        // when it last did
	Says     string    `json:"says"`           // a digest of what it said
	Gone     bool      `json:"gone,omitempty"` // it is called off
	For      []string  `json:"for,omitempty"`  // the ids of its crews
	Was      []string  `json:"was,omitempty"`  // those of crews whose it isn't any more
	Begins   string    `json:"begins"`         // as its line in a calendar has it
	Title    string    `json:"title"`
}

// NewLedger is the ledger of a plan of which no calendar knows. The same garden in the same
// year gets the same identifiers again, should its ledger be lost.
func NewLedger(garden string, handover time.Time) *Ledger {
	sum := sha256.Sum256(fmt.Appendf(nil, "%s\n%d", garden, handover.Year()))
	return &Ledger{Format: ledgerFormat, Version: LedgerVersion, Plan: fmt.Sprintf("%x", sum[:8])}
}

// ReadLedger reads the file of a ledger. The error says in words what is wrong with it.
func ReadLedger(text []byte) (*Ledger, error) {
	l := &Ledger{}
	if err := json.Unmarshal(text, l); err != nil || l.Format != ledgerFormat {
		return nil, fmt.Errorf("this is no file of calendar revisions that turflast wrote")
	}
	if l.Version > LedgerVersion {
		return nil, fmt.Errorf("these calendar revisions are of format %d, and this turflast reads up to %d: "+
			"a newer one wrote them", l.Version, LedgerVersion)
	}
	return l, nil
}

// Text is the file of the ledger.
func (l *Ledger) Text() []byte {
	text, err := json.MarshalIndent(l, "", " ")
	if err != nil {
		panic(err) // it holds texts and numbers alone
	}
	return append(text, '\n')
}

// Revise enters what the entries say now, and calls off those that aren't among them. It
// reports whether anything has changed. The sequence of a changed entry goes up, and is
// never below the hours since 2020: a ledger that was lost, and begun anew, doesn't fall
// behind what calendars have.
func (l *Ledger) Revise(entries []Entry, now time.Time) (changed bool) {
	now = now.UTC().Truncate(time.Second)
	known := map[string]Record{}
	for _, r := range l.Entries {
		known[r.Key] = r
	}
	l.Entries = nil
	for i := range entries {
		e := &entries[i]
		r := known[e.Key]
		delete(known, e.Key)
		if says := e.digest(); r.Says != says || r.Gone {
			changed = true
			r.revise(e, says)
			r.bump(now)
		}
		l.Entries = append(l.Entries, r)
	}
	for _, r := range known {
		if !r.Gone {
			r.Gone, changed = true, true
			r.bump(now)
		}
		l.Entries = append(l.Entries, r)
	}
	slices.SortFunc(l.Entries, func(a, b Record) int { return cmp.Compare(a.Key, b.Key) })
	return changed
}

// revise enters what an entry says now.
func (r *Record) revise(e *Entry, says string) {
	for _, crew := range r.For {
		if !slices.Contains(e.For, crew) && !slices.Contains(r.Was, crew) {
			r.Was = append(r.Was, crew)
		}
	}
	r.Was = slices.DeleteFunc(r.Was, func(crew string) bool { return slices.Contains(e.For, crew) })
	r.Key, r.Kind, r.Says, r.Gone, r.For, r.Begins, r.Title = e.Key, e.Kind, says, false, e.For, e.begins(), e.Title
}

// bump makes a new revision.
func (r *Record) bump(now time.Time) {
	hours := int64(now.Sub(time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)) / time.Hour)
	r.Sequence, r.Changed = max(r.Sequence+1, hours), now
}

// digest tells what an entry says.
func (e *Entry) digest() string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%q %d %q %q %q %d %q",
		e.begins(), e.End-e.Start, e.Title, e.Where, e.Notes, e.Alarm, e.For))
	return fmt.Sprintf("%x", sum[:8])
}
