package baseline

import (
	"encoding/json"
	"io"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/internal/strict"
)

// Format is the newest form of the file that is read, and the one that is written. Files
// without it are of form 1.
const Format = 1

// file is a baseline as its file has it.
type file struct {
	Format     int            `json:"format"`
	Number     int            `json:"baseline"`
	Garden     string         `json:"garden"`
	Agreed     string         `json:"agreed"`
	By         string         `json:"by"`
	Why        string         `json:"why,omitempty"`
	Digest     string         `json:"plan"`
	Seed       uint64         `json:"seed"`
	Finish     string         `json:"finish"`
	Handover   string         `json:"handover"`
	Margin     int32          `json:"margin_minutes"`
	OnClock    bool           `json:"margin_on_clock,omitempty"`
	Tasks      []fileTask     `json:"tasks"`
	Deliveries []fileDelivery `json:"deliveries"`
}

type fileTask struct {
	ID      string      `json:"id"`
	Start   string      `json:"start,omitempty"`
	Finish  string      `json:"finish,omitempty"`
	Done    string      `json:"done,omitempty"`
	Signed  string      `json:"signed,omitempty"`
	Crew    []fileHeads `json:"crew,omitempty"`
	Dropped bool        `json:"dropped,omitempty"`
	NoPlace bool        `json:"no_place,omitempty"`
}

type fileHeads struct {
	Crew  string `json:"crew"`
	Heads int    `json:"heads"`
}

type fileDelivery struct {
	ID      string `json:"id"`
	Arrives string `json:"arrives"`
	Start   string `json:"start,omitempty"`
	Finish  string `json:"finish,omitempty"`
	NoPlace bool   `json:"no_place,omitempty"`
}

// Write writes the baseline as a file: JSON, moments on the clock of a location.
func (b *Baseline) Write(out io.Writer, loc *time.Location) error {
	at := func(t calendars.Instant) string {
		if t == 0 {
			return ""
		}
		return t.RFC3339(loc)
	}
	f := file{
		Format: Format,
		Number: b.Number, Garden: b.Garden, Agreed: at(b.Agreed), By: b.By, Why: b.Why, Digest: b.Digest, Seed: b.Seed,
		Finish: at(b.Finish), Handover: at(b.Handover), Margin: int32(b.Margin.Time), OnClock: b.Margin.Clock,
		Tasks: []fileTask{}, Deliveries: []fileDelivery{},
	}
	for _, t := range b.Tasks {
		x := fileTask{
			ID: t.ID, Start: at(t.Start), Finish: at(t.Finish),
			Done: at(t.Done), Signed: at(t.Signed), Dropped: t.Dropped, NoPlace: t.NoPlace,
		}
		for _, h := range t.Crew {
			x.Crew = append(x.Crew, fileHeads(h))
		}
		f.Tasks = append(f.Tasks, x)
	}
	for _, d := range b.Deliveries {
		f.Deliveries = append(f.Deliveries, fileDelivery{d.ID, at(d.Arrives), at(d.Start), at(d.Finish), d.NoPlace})
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(f)
}

// Fault is what is wrong with a baseline file, and where.
type Fault = strict.Fault

// Read reads what [Baseline.Write] writes, strictly. The error is a [*Fault].
func Read(text []byte) (*Baseline, error) {
	var f file
	text, fault := strict.Decode(text, "baseline", Format, &f)
	if fault != nil {
		return nil, fault
	}
	r := &reader{strict.Reader{Text: text}}
	b := r.baseline(&f)
	if r.Fault != nil {
		return nil, r.Fault
	}
	return b, nil
}

// reader turns a file into a baseline.
type reader struct{ strict.Reader }

func (r *reader) baseline(f *file) *Baseline {
	if f.Number < 1 {
		r.Fail("baseline", "a baseline needs its number, from 1")
	}
	b := &Baseline{
		Number: f.Number, Garden: f.Garden, Agreed: r.Moment("agreed", f.Agreed),
		By: f.By, Why: f.Why, Digest: f.Digest, Seed: f.Seed,
		Finish: r.Moment("finish", f.Finish), Handover: r.Moment("handover", f.Handover),
		Margin: schedule.Margin{Time: calendars.Minutes(f.Margin), Clock: f.OnClock},
	}
	seen := make(map[string]bool)
	once := func(what, id string) {
		if id == "" || seen[what+id] {
			r.Fail(id, "%s %q is there twice, or has no id", what, id)
		}
		seen[what+id] = true
	}
	for _, t := range f.Tasks {
		once("task", t.ID)
		b.Tasks = append(b.Tasks, r.task(t))
	}
	for _, d := range f.Deliveries {
		once("delivery", d.ID)
		b.Deliveries = append(b.Deliveries, r.delivery(d))
	}
	return b
}

func (r *reader) task(t fileTask) Task {
	out := Task{ID: t.ID, Dropped: t.Dropped, NoPlace: t.NoPlace}
	dated := t.Start+t.Finish+t.Done+t.Signed != "" || len(t.Crew) > 0
	switch {
	case t.Dropped && t.NoPlace:
		r.Fail(t.ID, "%s is left out, so it needs no place", t.ID)
		return out
	case t.Dropped && dated:
		r.Fail(t.ID, "%s is left out, so it has no dates and no crew", t.ID)
	case t.NoPlace && dated:
		r.Fail(t.ID, "%s has no place, so it has no dates and no crew", t.ID)
	}
	if t.Dropped || t.NoPlace {
		return out
	}
	out.Start, out.Finish = r.Moment("start", t.Start), r.Moment("finish", t.Finish)
	out.Done, out.Signed = r.Moment("done", t.Done), r.Moment("signed", t.Signed)
	if out.Finish < out.Start {
		r.Fail(t.ID, "%s finishes before it starts", t.ID)
	}
	for _, h := range t.Crew {
		out.Crew = append(out.Crew, Heads(h))
	}
	return out
}

func (r *reader) delivery(d fileDelivery) Delivery {
	out := Delivery{ID: d.ID, Arrives: r.Moment("arrives", d.Arrives), NoPlace: d.NoPlace}
	switch {
	case !d.NoPlace:
		out.Start, out.Finish = r.Moment("start", d.Start), r.Moment("finish", d.Finish)
	case d.Start+d.Finish != "":
		r.Fail(d.ID, "%s has no place, so it isn't unloaded", d.ID)
	}
	return out
}
