package draw

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Moved is how many tasks a trial moves.
func (t *Trial) Moved() int { return len(t.diff.Moved) }

// Offer tells a page of a better programme than the one that is shown: what it brings,
// which key takes it, the dates that hold again or still break, and what moves.
func Offer(d *page.Document, shown, offer *Garden, key string) {
	diff := offer.Trial.diff
	d.In(page.Strong, Clean(offer.Words.OfferedFor(shown.Programme, offer.Programme, len(diff.Moved))))
	d.Say(wording.Taking(key))
	d.In(page.Strong, offer.Words.LeftOut(offer.Programme))
	for i := range offer.Plan.Deliveries {
		d.In(page.Strong, Clean(offer.Words.Rebooked(offer.Plan, offer.Programme, schedule.DeliveryID(i))))
	}
	for _, x := range diff.Broken {
		d.In(page.Late, page.BreakMark+offer.Words.Break(x))
	}
	for _, x := range diff.Still {
		d.Say(offer.Words.BreaksAsBefore(x))
	}
	for _, x := range diff.Mended {
		d.Say(shown.Words.HoldsAgain(x))
	}
	offer.movedRows(d)
	offer.latenessRows(d)
}
