package issue

import (
	"encoding/json"
	"io"
	"time"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/internal/strict"
)

// Format is the newest form of the file that is read, and the one that is written.
const Format = 1

// file is an issue as its file has it.
type file struct {
	Format  int          `json:"format"`
	Number  int          `json:"issue"`
	Garden  string       `json:"garden"`
	Issued  string       `json:"issued"`
	By      string       `json:"by"`
	Digest  string       `json:"plan"`
	Crews   []string     `json:"crews,omitempty"`
	Numbers []fileNumber `json:"numbers"`
	Told    []fileTold   `json:"told"`
}

// fileThing names a task or a delivery: one of the two.
type fileThing struct {
	Task     string `json:"task,omitempty"`
	Delivery string `json:"delivery,omitempty"`
}

type fileNumber struct {
	Number int `json:"number"`
	fileThing
}

type fileTold struct {
	fileThing
	Name     string      `json:"name"`
	Arrives  string      `json:"arrives,omitempty"`
	Start    string      `json:"start,omitempty"`
	Finish   string      `json:"finish,omitempty"`
	SignOff  string      `json:"sign_off,omitempty"`
	Zones    []string    `json:"zones,omitempty"`
	Crew     []fileHeads `json:"crew,omitempty"`
	Machines []fileHeads `json:"machines,omitempty"`
	Started  string      `json:"started,omitempty"`
	Finished string      `json:"finished,omitempty"`
	Failed   string      `json:"failed,omitempty"`
	Signed   string      `json:"signed,omitempty"`
	Came     bool        `json:"came,omitempty"`
	Refused  bool        `json:"refused,omitempty"`
}

type fileHeads struct {
	ID    string `json:"id"`
	Count int    `json:"count"`
}

func thing(id string, delivery bool) fileThing {
	if delivery {
		return fileThing{Delivery: id}
	}
	return fileThing{Task: id}
}

// Write writes the issue as a file: JSON, moments on the clock of a location. The error is
// the writer's.
func (x *Issue) Write(out io.Writer, loc *time.Location) error {
	at := func(t calendars.Instant) string {
		if t == 0 {
			return ""
		}
		return t.RFC3339(loc)
	}
	heads := func(list []Heads) (out []fileHeads) {
		for _, h := range list {
			out = append(out, fileHeads(h))
		}
		return out
	}
	f := file{
		Format: Format, Number: x.Number, Garden: x.Garden, Issued: at(x.At), By: x.By, Digest: x.Digest, Crews: x.Crews,
		Numbers: []fileNumber{}, Told: []fileTold{},
	}
	for _, n := range x.Numbers {
		f.Numbers = append(f.Numbers, fileNumber{n.Number, thing(n.ID, n.Delivery)})
	}
	for i := range x.Told {
		t := &x.Told[i]
		h := &t.Happened
		f.Told = append(f.Told, fileTold{
			fileThing: thing(t.ID, t.Delivery), Name: t.Name, Arrives: at(t.Arrives), Start: at(t.Start), Finish: at(t.Finish),
			SignOff: at(t.SignOff), Zones: t.Zones, Crew: heads(t.Crew), Machines: heads(t.Machines),
			Started: at(h.Started), Finished: at(h.Finished), Failed: at(h.Failed), Signed: at(h.Signed),
			Came: h.Came, Refused: h.Refused,
		})
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(f)
}

// Fault is what is wrong with a file of an issue, and where.
type Fault = strict.Fault

// MostNumber is more than any short number is: sheets have no room for longer ones.
const MostNumber = 1_000_000

// Read reads what [Issue.Write] writes, strictly. The error is a [*Fault].
func Read(text []byte) (*Issue, error) {
	var f file
	text, fault := strict.Decode(text, "issue", Format, &f)
	if fault != nil {
		return nil, fault
	}
	r := &reader{strict.Reader{Text: text}}
	x := r.issue(&f)
	if r.Fault != nil {
		return nil, r.Fault
	}
	return x, nil
}

// reader turns a file into an issue.
type reader struct{ strict.Reader }

func (r *reader) issue(f *file) *Issue {
	switch {
	case f.Format < 1:
		r.Fail("format", "an issue needs its format, from 1")
	case f.Number < 1:
		r.Fail("issue", "an issue needs its number, from 1")
	}
	x := &Issue{
		Number: f.Number, Garden: f.Garden, At: r.Moment("issued", f.Issued), By: f.By, Digest: f.Digest, Crews: f.Crews,
	}
	given, numbered, told := make(map[int]bool), make(map[key]bool), make(map[key]bool)
	for _, n := range f.Numbers {
		k := r.thing(n.fileThing, numbered)
		if n.Number < 1 || n.Number > MostNumber || given[n.Number] {
			r.Fail(k.id, "the number %d of %q is none, or another's too", n.Number, k.id)
		}
		given[n.Number] = true
		x.Numbers = append(x.Numbers, Number{k.id, k.delivery, n.Number})
	}
	for i := range f.Told {
		t := &f.Told[i]
		k := r.thing(t.fileThing, told)
		if !numbered[k] {
			r.Fail(k.id, "%q has no number", k.id)
		}
		x.Told = append(x.Told, r.told(k, t))
	}
	return x
}

// thing names a task or a delivery, which may be there once.
func (r *reader) thing(f fileThing, seen map[key]bool) key {
	k := key{f.Task, false}
	if f.Delivery != "" {
		k = key{f.Delivery, true}
	}
	if k.id == "" || f.Task != "" && f.Delivery != "" || seen[k] {
		r.Fail(k.id, "%q is there twice, or isn't one task or one delivery", k.id)
	}
	seen[k] = true
	return k
}

func (r *reader) told(k key, t *fileTold) Told {
	at := func(key, text string) calendars.Instant {
		if text == "" {
			return 0
		}
		return r.Moment(key, text)
	}
	heads := func(list []fileHeads) (out []Heads) {
		for _, h := range list {
			if h.Count < 0 {
				r.Fail(k.id, "%q has %d of %q", k.id, h.Count, h.ID)
			}
			out = append(out, Heads(h))
		}
		return out
	}
	out := Told{
		ID: k.id, Name: t.Name, Delivery: k.delivery, Arrives: at("arrives", t.Arrives), Start: at("start", t.Start),
		Finish: at("finish", t.Finish), SignOff: at("sign_off", t.SignOff), Zones: t.Zones,
		Crew: heads(t.Crew), Machines: heads(t.Machines),
		Happened: Happened{at("started", t.Started), at("finished", t.Finished), at("failed", t.Failed),
			at("signed", t.Signed), t.Came, t.Refused},
	}
	if (out.Start == 0) != (out.Finish == 0) || out.Finish < out.Start {
		r.Fail(k.id, "%q finishes before it starts, or has one moment of the two", k.id)
	}
	return out
}
