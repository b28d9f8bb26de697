package planfile

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// opening is what an item of the desk list comes before when it is no delivery or task.
const opening = "opening"

func (r *reader) readDesk(values []*yaml.Node) {
	r.plan.Desk = make([]schedule.DeskItem, len(values))
	for i, n := range values {
		d := &r.plan.Desk[i]
		d.ID, d.What, d.Kind, d.Pos = r.desk.list[i], r.desk.list[i], "other", r.desk.at[i]
		d.By = schedule.DeskDate{Delivery: schedule.None, Task: schedule.None}
		it, ok := r.item(n, "desk item "+d.ID, keys.Desk)
		if !ok {
			r.desk.doubt(i)
			continue
		}
		if it.has("what") {
			d.What = it.words("what", maxName)
		}
		if it.has("who") {
			d.Who = it.words("who", maxName)
		}
		if it.has("kind") {
			kinds := fixedNames("kind of desk item", schedule.DeskKinds())
			if s, ok := r.plain(it.get("kind"), it.of("kind")); ok {
				if k, known := r.findText(kinds, s, posOf(it.get("kind")), it.of("kind")); known {
					d.Kind = kinds.list[k]
				}
			}
		}
		if it.has("by") {
			d.By = r.deskDate(&it)
		}
	}
}

// deskDate reads "2027-03-01", "3w before slabs" or "8w before opening".
func (r *reader) deskDate(it *item) schedule.DeskDate {
	out := schedule.DeskDate{Delivery: schedule.None, Task: schedule.None}
	n, of := it.get("by"), it.of("by")
	s, ok := r.plain(n, of)
	if !ok {
		return out
	}
	length, what, relative := strings.Cut(s, " before ")
	if !relative {
		on, err := calendars.ParseDate(s)
		if err != nil {
			r.textFault(posOf(n), of, err)
		}
		out.On = on
		return out
	}
	ahead, err := calendars.ParseWait(length)
	if err != nil {
		r.textFault(posOf(n), of, err)
		return out
	}
	out.Ahead = ahead
	if what == opening {
		out.Opening = true
		return out
	}
	if k, is := r.deliveries.index[what]; is {
		out.Delivery = schedule.DeliveryID(k)
		return out
	}
	if k, is := r.tasks.index[what]; is {
		out.Task = schedule.TaskID(k)
		return out
	}
	if !r.tasks.broken && !r.deliveries.broken {
		known := slices.Concat([]string{opening}, r.deliveries.list, r.tasks.list)
		r.fault(posOf(n), r.suggest(what, "delivery or task", known), "unknown delivery or task %s in %s", quote(what), of)
	}
	return out
}

// farthest is how far before the opening, or after the hand-over, a date of the desk list
// may lie.
const farthest = 3 * 52 * calendars.Week

// checkDesk checks that each item of the desk list has a date, and that it lies in sight of
// the window.
func (r *reader) checkDesk() {
	site := &r.plan.Site
	for i := range r.plan.Desk {
		d := &r.plan.Desk[i]
		if !r.desk.used[i] && !d.By.Said() && r.fatal == 0 {
			r.fault(d.Pos, "say by, or name it under order_after of a delivery",
				"desk item %s doesn't say by when it is to be settled", d.ID)
		}
		if d.By.On == 0 || site.Location == nil || site.Opens == 0 || site.Handover == 0 {
			continue
		}
		on, _ := calendars.At(site.Location, d.By.On, calendars.Day/2)
		if on < site.Opens.Plus(-farthest) || on > site.Handover.Plus(farthest) {
			r.fault(d.Pos, "check the year", "by of desk item %s lies more than 3 years from the window: %s", d.ID, d.By.On)
		}
	}
}
