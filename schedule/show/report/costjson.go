package report

import (
	"io"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
)

// costObject is what [Report.CostJSON] writes.
type costObject struct {
	Format    string         `json:"format" const:"turflast.cost"`
	Version   int            `json:"version" const:"1"`
	Garden    string         `json:"garden" doc:"its name"`
	Currency  string         `json:"currency,omitempty" doc:"ISO 4217"`
	Scope     schedule.Scope `json:"scope" doc:"what the programme takes into account"`
	Rated     bool           `json:"rated" doc:"the plan has a rate of a crew, a machine or a lorry that waits"`
	Lines     []costLine     `json:"lines" doc:"what it costs, line by line"`
	Total     schedule.Money `json:"total" doc:"of all lines"`
	Extra     schedule.Money `json:"overtime_extra" doc:"part of the total that overtime is above the usual rate"`
	NoRate    noRate         `json:"no_rate" doc:"what is used and has no rate"`
	GiveBack  []givenBack    `json:"give_back" doc:"machines on hire that nobody needs for whole days"`
	StandDown []stoodDown    `json:"stand_down" doc:"crews that nothing needs for whole days"`
}

// costLine is one line of a bill, a hire each of a machine.
type costLine struct {
	Kind     cost.Kind           `json:"kind" doc:"what it is for"`
	Crew     schedule.CrewID     `json:"crew,omitempty" doc:"of people and overtime"`
	Machine  schedule.MachineID  `json:"machine,omitempty" doc:"of use and hire"`
	Which    *int                `json:"which,omitempty" doc:"of several on hire, counted from 1"`
	Delivery schedule.DeliveryID `json:"delivery,omitempty" doc:"of a lorry that waits"`
	From     calendars.Date      `json:"from,omitempty" doc:"first day of a hire"`
	To       calendars.Date      `json:"to,omitempty" doc:"last day of a hire"`
	Minutes  calendars.Minutes   `json:"minutes,omitempty" doc:"of people, in use, waiting; of a hire, what is charged"`
	Rate     schedule.Money      `json:"rate,omitempty" doc:"of an hour; of a hire, of a day or week"`
	Bringing *schedule.Money     `json:"bringing,omitempty" doc:"of a hire, in its cost"`
	Cost     schedule.Money      `json:"cost" doc:"rounded once, to the hundredth"`
}

type noRate struct {
	Crews      []schedule.CrewID     `json:"crews" doc:"at work"`
	Machines   []schedule.MachineID  `json:"machines" doc:"in use"`
	Deliveries []schedule.DeliveryID `json:"deliveries" doc:"that wait longer than for nothing"`
}

type wholeDays struct {
	From calendars.Date `json:"from" doc:"the first"`
	To   calendars.Date `json:"to" doc:"the last"`
}

type givenBack struct {
	Machine  schedule.MachineID `json:"machine" doc:"the machine"`
	Which    int                `json:"which" doc:"of several, counted from 1"`
	Days     []wholeDays        `json:"days" doc:"on which nobody needs it"`
	Saves    schedule.Money     `json:"saves" doc:"if it is given back"`
	Counted  bool               `json:"counted" doc:"the total has these days; else they cost that only if they are hired"`
	By       calendars.Instant  `json:"by,omitempty" doc:"when it must be said, if it has a notice"`
	Sentence string             `json:"sentence" doc:"the same in words"`
}

type stoodDown struct {
	Crew schedule.CrewID `json:"crew" doc:"the crew"`
	wholeDays
	Heads    int               `json:"heads" doc:"the most that are here at a time"`
	Minutes  calendars.Minutes `json:"minutes" doc:"person-minutes that they are here"`
	Worth    schedule.Money    `json:"worth,omitempty" doc:"of those at their rates; not in the total"`
	By       calendars.Instant `json:"by" doc:"before it they must be told"`
	Sentence string            `json:"sentence" doc:"the same in words"`
}

// costDifference is what one programme costs more than another.
type costDifference struct {
	Was      schedule.Money `json:"was" doc:"in all"`
	Now      schedule.Money `json:"now" doc:"in all, with the measures taken"`
	More     schedule.Money `json:"more" doc:"below 0 for less"`
	Extra    schedule.Money `json:"overtime_extra" doc:"of that, for overtime above the usual rate"`
	Sentence string         `json:"sentence" doc:"the same in words"`
}

// costLines are the lines of a bill, one for each hire.
func (r *Report) costLines(b *cost.Bill) (out []costLine) {
	for _, l := range b.Lines {
		x := costLine{Kind: l.Kind, Crew: l.Crew, Machine: l.Machine, Delivery: l.Delivery,
			Minutes: l.Minutes, Rate: l.Rate, Cost: l.Cost}
		for _, h := range l.Hires {
			x.Which, x.From, x.To, x.Minutes, x.Cost = new(h.Which), h.From, h.To, h.Charged, h.Cost
			x.Bringing = new(r.of.Plan.Machines[l.Machine].Hire.Bringing)
			out = append(out, x)
		}
		if l.Hires == nil {
			out = append(out, x)
		}
	}
	return out
}

// CostJSON writes what [Report.Cost] shows as one JSON object. The error is the writer's.
func (r *Report) CostJSON(out io.Writer) error {
	o := costObject{Garden: r.of.Plan.Garden, Currency: r.of.Plan.Currency, Scope: r.of.Programme.Scope}
	if o.Rated = cost.Rated(r.of.Plan); !o.Rated {
		return r.write(out, o)
	}
	b := cost.Of(r.of, 0)
	o.Lines, o.Total, o.Extra = r.costLines(b), b.Total, b.Extra
	o.NoRate = noRate{b.FreeCrews, b.FreeMachines, b.FreeLorries}
	for _, s := range cost.GiveBack(r.of) {
		o.GiveBack = append(o.GiveBack, givenBack{s.Machine, s.Which, each(s.Days, newDays), s.Saves, s.Counted, s.By,
			r.words.GiveBack(&s)})
	}
	for _, x := range cost.StandDown(r.of) {
		o.StandDown = append(o.StandDown,
			stoodDown{x.Crew, newDays(x.Days), x.Heads, x.Minutes, x.Worth, x.By, r.words.StandDown(&x)})
	}
	return r.write(out, o)
}

func newDays(d cost.Days) wholeDays { return wholeDays{d.From, d.To} }

// costDifference is what the programme costs more than that of another report; nil where the
// plan has no rates.
func (r *Report) costDifference(before *Report, measures schedule.Money, than string) *costDifference {
	d, rated := r.costs(before, measures)
	if !rated {
		return nil
	}
	return &costDifference{d.Was, d.Now, d.More, d.Extra, r.words.Costs(d, than)}
}

// costRow is a line of a bill and the name of whom or what it is of.
type costRow struct {
	Name string `json:"name" doc:"of the crew, machine or delivery"`
	costLine
}

// CostTable writes the lines of the bill as a table. The error is the writer's.
func (r *Report) CostTable(out io.Writer) error {
	var rows []costRow
	for _, l := range r.costLines(cost.Of(r.of, 0)) {
		x := costRow{costLine: l}
		switch {
		case l.Crew != schedule.None:
			x.Name = r.of.Plan.Crews[l.Crew].Name
		case l.Machine != schedule.None:
			x.Name = r.of.Plan.Machines[l.Machine].Name
		case l.Delivery != schedule.None:
			x.Name = r.of.Plan.Deliveries[l.Delivery].What
		}
		rows = append(rows, x)
	}
	return r.table(out, rows)
}
