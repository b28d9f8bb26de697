package sitelog_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/site/sitelog"
)

// What is logged of one lorry, and what it adds up to, with the events that can't be.
func TestLorry(t *testing.T) {
	for _, c := range []struct {
		what   string
		events []sitelog.Event
		want   sitelog.Delivery
		not    []string // why some don't count
	}{
		{"came and was unloaded", []sitelog.Event{
			event("a", sitelog.Arrived, "07:10", "larch"), event("b", sitelog.Unloaded, "07:40", "larch"),
		}, sitelog.Delivery{Arrived: at("07:10"), Over: at("07:40")}, nil},
		{"unloaded, so it had come", []sitelog.Event{
			event("b", sitelog.Unloaded, "07:40", "larch"),
		}, sitelog.Delivery{Arrived: at("07:40"), Unseen: true, Over: at("07:40")}, nil},
		{"its coming written afterwards", []sitelog.Event{
			event("b", sitelog.Unloaded, "07:40", "larch"), event("a", sitelog.Arrived, "07:10", "larch"),
		}, sitelog.Delivery{Arrived: at("07:10"), Over: at("07:40")}, nil},
		{"unloaded twice, sent away after", []sitelog.Event{
			event("b", sitelog.Unloaded, "07:40", "larch"), event("c", sitelog.Unloaded, "07:50", "larch"),
			why(event("d", sitelog.Refused, "08:00", "larch"), "cracked"),
		}, sitelog.Delivery{Arrived: at("07:40"), Unseen: true, Over: at("07:40")}, []string{
			"larch is unloaded already; undo that first if it was wrong",
			"larch has been unloaded, or loaded and gone, already; undo that first if it was wrong",
		}},
		{"gone twice", []sitelog.Event{
			event("a", sitelog.Arrived, "10:20", "larch"),
			event("b", sitelog.Gone, "11:05", "larch"), event("c", sitelog.Gone, "11:06", "larch"),
		}, sitelog.Delivery{Arrived: at("10:20"), Over: at("11:05")}, []string{
			"larch is loaded and gone already; undo that first if it was wrong",
		}},
		{"ordered and confirmed", []sitelog.Event{
			event("a", sitelog.Ordered, "07:00", "larch"), event("b", sitelog.Confirmed, "08:00", "larch"),
			event("c", sitelog.Ordered, "09:00", "larch"), event("d", sitelog.Confirmed, "09:00", "larch"),
		}, sitelog.Delivery{Ordered: at("07:00"), Confirmed: at("08:00")}, []string{
			"larch is ordered already; undo that first if it was wrong",
			"larch is confirmed already; undo that first if it was wrong",
		}},
		{"another booking is to be confirmed anew", []sitelog.Event{
			event("a", sitelog.Confirmed, "07:00", "larch"), booked("b", "08:00", "larch", "12:00"),
		}, sitelog.Delivery{To: at("12:00"), Booked: at("08:00")}, nil},
		{"loaded, then held up", []sitelog.Event{
			event("a", sitelog.Loaded, "06:00", "larch"), booked("b", "08:00", "larch", "12:00"),
			event("c", sitelog.Loaded, "08:10", "larch"),
		}, sitelog.Delivery{To: at("12:00"), Booked: at("08:00"), Loaded: at("06:00")}, []string{
			"larch is loaded already; undo that first if it was wrong",
		}},
		{"short, and the rest as well", []sitelog.Event{
			event("a", sitelog.Loaded, "06:00", "larch"), event("b", sitelog.Arrived, "07:00", "larch"),
			short("c", "07:10", "larch", "half of it", "12:00"), event("d", sitelog.Unloaded, "07:40", "larch"),
			event("e", sitelog.Arrived, "12:05", "larch"), short("f", "12:10", "larch", "a board", ""),
		}, sitelog.Delivery{Parts: []sitelog.Part{
			{Arrived: at("07:00"), Over: at("07:40"), Loaded: at("06:00"), Short: "half of it", Told: at("07:10")},
			{Arrived: at("12:05"), Short: "a board", Told: at("12:10")},
		}}, nil},
		{"the rest unloaded, and nobody saw it come", []sitelog.Event{
			event("a", sitelog.Unloaded, "07:00", "larch"), short("b", "07:10", "larch", "half of it", "12:00"),
			event("c", sitelog.Unloaded, "12:40", "larch"),
		}, sitelog.Delivery{To: at("12:00"), Booked: at("07:10"), Arrived: at("12:40"), Unseen: true, Over: at("12:40"),
			Parts: []sitelog.Part{{Arrived: at("07:00"), Unseen: true, Over: at("07:00"), Short: "half of it",
				Told: at("07:10")}}}, nil},
		{"short before it came", []sitelog.Event{
			short("b", "07:10", "larch", "half of it", "12:00"), event("c", sitelog.Arrived, "07:20", "larch"),
		}, sitelog.Delivery{Arrived: at("07:20")}, []string{"larch hasn't come at that time; log its arrival first"}},
		{"sent away, so ordered anew", []sitelog.Event{
			event("a", sitelog.Ordered, "07:00", "larch"), event("b", sitelog.Confirmed, "07:00", "larch"),
			why(event("c", sitelog.Refused, "08:00", "larch"), "cracked"), event("d", sitelog.Ordered, "09:00", "larch"),
		}, sitelog.Delivery{Refused: at("08:00"), Ordered: at("09:00")}, nil},
	} {
		s := sitelog.Replay(c.events, calendars.Never)
		if diff := cmp.Diff(&c.want, s.Deliveries["larch"]); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
		var not []string
		for _, x := range s.Conflicts {
			not = append(not, x.Why)
		}
		if diff := cmp.Diff(c.not, not); diff != "" {
			t.Errorf("%s, conflicts (-want +got):\n%s", c.what, diff)
		}
	}
}

// short is what is missing of a load, and when the rest comes, if that is said.
func short(id, clock, about, text, rest string) sitelog.Event {
	e := why(event(id, sitelog.Short, clock, about), text)
	if rest != "" {
		e.To = at(rest)
	}
	return e
}

// booked is a new booking for a time of the same day.
func booked(id, clock, about, to string) sitelog.Event {
	e := event(id, sitelog.Rebooked, clock, about)
	e.To = at(to)
	return e
}
