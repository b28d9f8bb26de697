package report

import (
	"fmt"
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/schedule/site/issue"
)

// Issues lists the issues of a plan, oldest first.
func Issues(p *schedule.Plan, list []*issue.Issue) *page.Document {
	w := &page.Document{}
	words := wording.New(p)
	if len(list) == 0 {
		w.Say(wording.NothingIssued)
	}
	for _, x := range list {
		w.Say(words.IssuedTo(x))
	}
	return w
}

// issues is what [IssuesJSON] writes.
type issues struct {
	Format  string        `json:"format" const:"turflast.issues"`
	Version int           `json:"version" const:"1"`
	Issues  []issueObject `json:"issues" doc:"oldest first"`
}

type issueObject struct {
	Number   int               `json:"issue" doc:"its number"`
	At       calendars.Instant `json:"issued" doc:"when it was handed out"`
	By       string            `json:"by" doc:"who handed it out"`
	Crews    []string          `json:"crews,omitempty" doc:"ids of those who got it; none for everyone"`
	Digest   string            `json:"plan" doc:"digest of the plan file then"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

// IssuesJSON writes what [Issues] shows as one JSON object. The error is the writer's.
func IssuesJSON(out io.Writer, p *schedule.Plan, list []*issue.Issue) error {
	words := wording.New(p)
	var o issues
	for _, x := range list {
		o.Issues = append(o.Issues, issueObject{x.Number, x.At, x.By, x.Crews, x.Digest, words.IssuedTo(x)})
	}
	return kinds.Write(out, p, o)
}

// Since is what differs for one crew, or for nobody's work, from the last issue it got.
type Since struct {
	Crew    schedule.CrewID // sheets.Everyone for what no crew does
	Last    *issue.Issue    // nil when it got none
	Differs []issue.Difference
}

// Changed tells each crew what differs from its last issue.
func (s *Sheets) Changed(list []Since) *page.Document {
	w := &page.Document{}
	w.In(page.Strong, s.r.of.Plan.Garden+" · changed since the last issue")
	w.Say(s.r.words.AsAt())
	for _, x := range list {
		name := wording.NoCrew
		if x.Crew != sheets.Everyone {
			name = s.r.of.Plan.Crews[x.Crew].Name
		}
		if x.Last == nil {
			w.Heading(name)
			w.Say(wording.NotIssuedToThem)
			continue
		}
		w.Heading(fmt.Sprintf("%s · since issue %d, %s", name, x.Last.Number, s.r.words.Moment(x.Last.At)))
		if len(x.Differs) == 0 {
			w.Say(wording.IssuedAsItIs)
		}
		for _, d := range x.Differs {
			w.Mark("- ", s.r.words.Since(s.book, d))
		}
	}
	return w
}

// changedObject is what [Sheets.ChangedJSON] writes.
type changedObject struct {
	Format   string            `json:"format" const:"turflast.changed"`
	Version  int               `json:"version" const:"1"`
	Garden   string            `json:"garden" doc:"its name"`
	Timezone string            `json:"timezone" doc:"tz database name"`
	AsAt     calendars.Instant `json:"as_at,omitempty" doc:"up to which the site log tells; none without a log"`
	Crews    []changedFor      `json:"crews" doc:"those asked for"`
}

type changedFor struct {
	Crew    schedule.CrewID `json:"crew,omitempty" doc:"its id; none for what no crew does"`
	Issue   int             `json:"issue,omitempty" doc:"the last one it got; none when it got none"`
	Differs []since         `json:"differs,omitempty" doc:"what differs from that, by when it begins"`
}

// since is one difference. The ids are those of the issue, which the plan may no longer have.
type since struct {
	Number   int          `json:"number" doc:"the short number"`
	Task     string       `json:"task,omitempty" doc:"id of the task that differs"`
	Delivery string       `json:"delivery,omitempty" doc:"id of the delivery that differs"`
	Change   issue.Change `json:"change" doc:"how"`
	Was      *told        `json:"was,omitempty" doc:"as it was issued"`
	Now      *told        `json:"now,omitempty" doc:"as it is"`
	Sentence string       `json:"sentence" doc:"the same in words"`
}

// told is what a sheet says of an activity.
type told struct {
	Arrives calendars.Instant `json:"arrives,omitempty" doc:"of a lorry"`
	Start   calendars.Instant `json:"start,omitempty" doc:"none when it has no place"`
	Finish  calendars.Instant `json:"finish,omitempty" doc:"none when it has no place"`
	Zones   []string          `json:"zones,omitempty" doc:"where it is"`
	Crew    []toldHeads       `json:"crew,omitempty" doc:"who is at it"`
	Machine []toldHeads       `json:"machines,omitempty" doc:"what is at it"`
}

type toldHeads struct {
	ID    string `json:"id" doc:"of the crew or the machine"`
	Count int    `json:"count" doc:"so many of it"`
}

// ChangedJSON writes what [Sheets.Changed] shows as one JSON object. The error is the
// writer's.
func (s *Sheets) ChangedJSON(out io.Writer, list []Since) error {
	p := s.r.of.Plan
	o := changedObject{Garden: p.Garden, Timezone: p.Site.Location.String(), AsAt: s.r.asAt()}
	for _, x := range list {
		c := changedFor{Crew: x.Crew}
		if x.Last != nil {
			c.Issue = x.Last.Number
		}
		for _, d := range x.Differs {
			c.Differs = append(c.Differs, s.since(d))
		}
		o.Crews = append(o.Crews, c)
	}
	return s.r.write(out, o)
}

func (s *Sheets) since(d issue.Difference) since {
	of := d.Of()
	o := since{
		Number: s.book.Numbers.OfID(of.ID, of.Delivery), Task: of.ID, Change: d.Change,
		Was: toldObject(d.Was), Now: toldObject(d.Now), Sentence: s.r.words.Since(s.book, d),
	}
	if of.Delivery {
		o.Task, o.Delivery = "", of.ID
	}
	return o
}

func toldObject(t *issue.Told) *told {
	if t == nil {
		return nil
	}
	heads := func(h issue.Heads) toldHeads { return toldHeads(h) }
	return &told{t.Arrives, t.Start, t.Finish, t.Zones, each(t.Crew, heads), each(t.Machines, heads)}
}
