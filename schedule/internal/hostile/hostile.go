// Package hostile is the names that a hostile or a foreign plan may hold, and plans that are
// full of them, for tests of whatever writes plans out: pages, tables, calendars.
package hostile

import (
	"fmt"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// Names are texts that the reader of plans takes as names. Each is to come through every
// output whole, and to do nothing there.
var Names = []string{
	`<script>alert("turf")</script>`, `</title></style></svg><img src=x onerror=alert(1)>`,
	`<b>bold</b> & <!-- hidden -->`, `&lt;i&gt; &amp; &#60;u&#62; &copy`, `"quoted" 'single' ` + "`ticks`",
	`]]><![CDATA[x`, `{{.}} {{template "x"}} ${HOME} $(id) %s %n %41`,
	`javascript:alert(1)//https://example.com/x?y=1&z=2`,
	`=1+1`, `=HYPERLINK("http://example.com";"turf")`, `+44 20 7946 0000`, `-2+3`, `@SUM(A1:A9)`, `'=1+1`,
	`one, two; "three",4`, `back\slash \n \, \; \N`, `BEGIN:VEVENT`, `DTSTART;TZID=x:20270501T070000`,
	`turf:  last: - [a, b] {c} # no comment`, `../../etc/passwd`, `C:\CON`, `--out=/x`,
	"זרע את הדשא (12 m2)", "ازرع العشب قبل المطر", "庭の石を据える", "Cafe\u0301 terrace, ångstro\u0308m ﬁsh",
	"🧑🏽 family bed 🌿🧱", "⚠️ care", "½ day, 3 × 2 m², 20 °C … “quoted” ‘so’",
	"Grundstücksentwässerungskanalschachtabdeckungsauswechslungsarbeitsvorbereitungsbesprechung",
	strings.Repeat("A very long name indeed ", 4) + "for one bed",
}

// Raw are texts that no plan file can hold, but that notes, or plans not read from a file,
// may: what makes a terminal act or turns a line round is to be taken out of them.
var Raw = []string{
	"\x1b[31mred\x1b[0m", "\x1b]0;title\x07", "a\tb\nc\r\nd", "\u202eesrever", "\u2066isolated\u2069", "zero\u200bwidth",
	"\u009bcsi", "nul\x00byte", "bad\xff\xfebytes", "👩\u200d👩\u200d👧 family",
	"line\u2028and\u2029paragraph", "\ufeffmark", "\U000e0041tag",
}

// Plan returns a copy of a plan in which every text that somebody may write differs from all
// others and has one of the names in it, and those texts. Ids, dates and all that is computed
// with stay as they are. The plan that it copies isn't changed.
func Plan(of *schedule.Plan) (*schedule.Plan, []string) { return named(of, Names) }

// Plain is [Plan] with names that mean nothing anywhere, to compare with.
func Plain(of *schedule.Plan) *schedule.Plan {
	p, _ := named(of, []string{"plain name"})
	return p
}

func named(of *schedule.Plan, names []string) (*schedule.Plan, []string) {
	p, w := *of, &writer{names: names}
	p.Garden = w.next()
	p.Zones = each(p.Zones, func(z *schedule.Zone) { z.Name = w.next() })
	p.Crews = each(p.Crews, func(c *schedule.Crew) { c.Name = w.next() })
	p.Machines = each(p.Machines, func(m *schedule.Machine) { m.Name = w.next() })
	p.Givens = each(p.Givens, func(g *schedule.Given) { g.What = w.next() })
	p.Desk = each(p.Desk, func(d *schedule.DeskItem) { d.What, d.Who = w.next(), w.next() })
	p.Deliveries = each(p.Deliveries, func(d *schedule.Delivery) { d.What = w.next() })
	p.Tasks = each(p.Tasks, func(t *schedule.Task) {
		t.Name, t.Short, t.DoneWhen, t.Note = w.next(), "", w.next(), w.next()
		if t.Hold != nil {
			hold := *t.Hold
			hold.What = w.next()
			t.Hold = &hold
		}
	})
	return &p, w.written
}

// writer gives out names, none twice.
type writer struct{ names, written []string }

func (w *writer) next() string {
	n := len(w.written)
	s := fmt.Sprintf("%s %d", w.names[n%len(w.names)], n)
	w.written = append(w.written, s)
	return s
}

// each returns a copy of a list with a change made to each of its elements.
func each[T any](list []T, change func(*T)) []T {
	list = slices.Clone(list)
	for i := range list {
		change(&list[i])
	}
	return list
}
