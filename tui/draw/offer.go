package draw

import (
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/wording"
)

// Moved is how many tasks a trial moves.
func (t *Trial) Moved() int { return len(t.diff.Moved) }

// Offer tells a page of a better programme than the one that stands: what it brings,
// which key takes it, the dates that hold again or still break, and what moves.
func Offer(d *page.Document, offer *Garden, key string) {
	d.In(page.Strong, Clean(offer.Words.OfferedFor(offer.Trial.before.Programme, offer.Programme, offer.Trial.Moved())))
	d.Say(wording.Taking(key))
	d.In(page.Strong, offer.Words.LeftOut(offer.Programme))
	for i := range offer.Plan.Deliveries {
		d.In(page.Strong, Clean(offer.Words.Rebooked(offer.Plan, offer.Programme, schedule.DeliveryID(i))))
	}
	offer.brokenRows(d)
	offer.movedRows(d)
	offer.latenessRows(d)
}
