package report

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/cost"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// costColumns are those of a bill: who or what, the time, the rate, the sum.
var costColumns = []page.Column{
	{Most: 44, Gap: 2}, {Room: 9, Gap: 2, Right: true}, {Room: 9, Gap: 2, Right: true}, {Room: 12, Right: true},
}

// Cost is what the programme costs by the rates of the plan: one table that adds up, what it
// doesn't count, then what could be given back and who could be stood down.
func (r *Report) Cost() *page.Document {
	w := &page.Document{}
	r.short(w)
	w.Heading("What it costs")
	if !cost.Rated(r.of.Plan) {
		w.Say(wording.NoRates)
		return w
	}
	b := cost.Of(r.of, 0)
	r.bill(w, b)
	w.Space()
	w.Say(r.words.OvertimeExtra(b))
	w.Say(r.words.WithoutRate(b))
	w.Say(wording.CostNotCounted)
	if r.of.Programme.Blocked != nil {
		w.Say(wording.BlockedCostsNothing)
	}
	r.spare(w)
	return w
}

// bill adds the table of a bill.
func (r *Report) bill(w *page.Document, b *cost.Bill) {
	t := w.Table(0, costColumns...)
	t.Name, t.Heads, t.Sides = "What it costs", 1, true
	row := func(cells [4]string) { t.Row(cells[:]...) }
	row(r.words.CostHeads())
	for i := range b.Lines {
		for _, cells := range r.words.CostLine(&b.Lines[i]) {
			row(cells)
		}
	}
	row([4]string{"In all", "", "", wording.Amount(b.Total)})
	t.As(page.Strong, 0)
	t.As(page.Strong, len(costColumns)-1)
}

// spare adds what could be given back and who could be stood down.
func (r *Report) spare(w *page.Document) {
	var back, down []string
	for _, s := range cost.GiveBack(r.of) {
		back = append(back, r.words.GiveBack(&s))
	}
	for _, x := range cost.StandDown(r.of) {
		down = append(down, r.words.StandDown(&x))
	}
	if back != nil {
		w.Section("Machines to give back", append(back, wording.GiveBackTried))
	}
	if down != nil {
		w.Section("Crews to stand down", append(down, wording.StandDownTried))
	}
}

// costs is what a programme costs more than the one of the report, with the measures taken for
// it; ok is false where the plan has no rates.
func (r *Report) costs(than *Report, measures schedule.Money) (d cost.Difference, ok bool) {
	if !cost.Rated(than.of.Plan) && !cost.Rated(r.of.Plan) {
		return d, false
	}
	return cost.Between(cost.Of(than.of, 0), cost.Of(r.of, measures)), true
}
