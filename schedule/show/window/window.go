// Package window holds what the window is made of, apart from what it is drawn on: in which
// order zones stand, how much each bar stands out, how far what it stands for may slip, how
// its name is shortened, and the order of the hand-over chain. The terminal lays that out in
// columns, paper in millimetres, each by itself: a column holds a whole character, and a
// label has to fit; paper gives each row as much as it takes.
package window

import (
	"cmp"
	"slices"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/network"
	"build.example/turflast/schedule/show/page"
	"build.example/turflast/schedule/show/sheets"
)

// Ground is how much a bar stands out.
type Ground uint8

// The grounds, from the faintest on: that is also what lies over what.
const (
	Done  Ground = iota // finished
	Free                // may slip more than Tightest
	Tight               // may slip Tightest or less
	Chain               // fixes the hand-over
	Late                // breaks a date, or lies beyond the line
)

// Tightest is the most that may be slipped that counts as tight.
const Tightest = calendars.Hour

// Order sorts the zones as one walks in: off site first, then those with the longest way in,
// at last those at the gate; plan order among equals.
func Order(p *schedule.Plan) []schedule.ZoneID {
	order := make([]schedule.ZoneID, len(p.Zones))
	depth := make([]int, len(p.Zones))
	for z := range p.Zones {
		order[z] = schedule.ZoneID(z)
		depth[z] = len(p.Crossed(schedule.ZoneID(z)))
		if p.Zones[z].OffSite {
			depth[z] = len(p.Zones)
		}
	}
	slices.SortStableFunc(order, func(a, b schedule.ZoneID) int { return cmp.Compare(depth[b], depth[a]) })
	return order
}

// Built is the work of one stage in one zone.
type Built struct {
	Zone  schedule.ZoneID
	Stage schedule.StageID
	Span  calendars.Span // from the first work until all of it is done
}

// preparing are the stages that build nothing: they come before and after all that stays.
var preparing = []string{"protection", "set-out", "clean", "strike"}

// WhatIsBuilt lists what is built, zone by zone as one walks in, in each by its beginning. A task
// in several zones counts in the first of them.
func WhatIsBuilt(c network.Case) []Built {
	var out []Built
	for _, z := range Order(c.Plan) {
		var here []Built
		for i := range c.Plan.Tasks {
			t, d := &c.Plan.Tasks[i], &c.Programme.Tasks[i]
			if t.Zones[0] != z || d.Dropped || !d.Start.IsReal() || slices.Contains(preparing, c.Plan.Stages[t.Stage]) {
				continue
			}
			k := slices.IndexFunc(here, func(b Built) bool { return b.Stage == t.Stage })
			if k < 0 {
				k, here = len(here), append(here, Built{z, t.Stage, calendars.Span{Start: d.Start}})
			}
			here[k].Span.Start, here[k].Span.End = min(here[k].Span.Start, d.Start), max(here[k].Span.End, d.Done)
		}
		slices.SortStableFunc(here, func(a, b Built) int { return cmp.Compare(a.Span.Start, b.Span.Start) })
		out = append(out, here...)
	}
	return out
}

// ChainOf lists the activities of the hand-over chain in its order, each once.
func ChainOf(g *schedule.Programme) []schedule.Activity {
	var out []schedule.Activity
	seen := map[schedule.Activity]bool{schedule.Nothing: true}
	for _, s := range g.Chain {
		if !seen[s.Activity] {
			seen[s.Activity] = true
			out = append(out, s.Activity)
		}
	}
	return out
}

// Breaks lists the broken dates of an activity.
func Breaks(c network.Case, a schedule.Activity) []schedule.Break {
	stock, lorry := c.Plan.Delivery(a)
	var out []schedule.Break
	for _, b := range c.Programme.Breaks {
		if b.Activity == a || lorry && b.Stock == stock {
			out = append(out, b)
		}
	}
	return out
}

// Slip returns how far an activity may slip in the order of hands, or a lorry come late as
// programmed, negative once it is late; known is false when that isn't known or there is
// nothing left to slip.
func Slip(c network.Case, a schedule.Activity) (slip calendars.Minutes, known bool) {
	if d, lorry := c.Plan.Delivery(a); lorry {
		return lorryLate(c, d)
	}
	t, _ := c.Plan.Task(a)
	d := &c.Programme.Tasks[t]
	switch {
	case c.Plan.Finished(t) || !d.Start.IsReal():
		return 0, false
	case d.TotalFloat <= 0 || c.Programme.Scope == schedule.Logic:
		return d.TotalFloat, true
	}
	return d.CrewFloat, !c.Programme.Cut.Floats
}

func lorryLate(c network.Case, d schedule.DeliveryID) (slip calendars.Minutes, known bool) {
	u := &c.Programme.Unloads[d]
	switch {
	case c.Plan.Arrived(d) || c.Programme.Cut.Floats || !u.Start.IsReal():
		return 0, false
	case u.LateArrival == calendars.Never:
		return schedule.FreeRange, true
	case u.LateArrival == calendars.Past:
		return schedule.NoFloat, true
	}
	return calendars.Minutes(u.LateArrival - u.Arrives), true
}

// GroundOf returns the ground of an activity's bar. onChain says whether the hand-over chain
// has it.
func GroundOf(c network.Case, a schedule.Activity, onChain bool) Ground {
	slip, known := Slip(c, a)
	switch {
	case sheets.StateOf(c.Plan, a) >= sheets.Unsigned:
		return Done
	case len(Breaks(c, a)) > 0 || begins(c, a) >= c.Plan.Site.Handover:
		return Late
	case onChain:
		return Chain
	case known && slip < 0:
		return Late
	case known && slip <= Tightest:
		return Tight
	}
	return Free
}

// begins is when a bar begins: a lorry's as it arrives.
func begins(c network.Case, a schedule.Activity) calendars.Instant {
	if d, lorry := c.Plan.Delivery(a); lorry {
		return c.Programme.Unloads[d].Arrives
	}
	return c.Programme.Of(a).Start
}

// Really returns when a task would be done if it slipped by its crew float.
func Really(c network.Case, t schedule.TaskID) calendars.Instant {
	d := &c.Programme.Tasks[t]
	if d.CrewFloat <= 0 {
		return d.Done
	}
	own := c.Hours.Task(&c.Plan.Tasks[t], d.Heads)
	return own.Add(d.Finish, d.CrewFloat).Plus(calendars.Minutes(d.Done - d.Finish))
}

// CutName is the most columns of a name that is cut because it has no short form.
const CutName = 16

// Short returns a short form of an activity's whole name: the plan's own, the id where that is
// words, or the name cut at a word; the name itself where that is no longer.
func Short(p *schedule.Plan, a schedule.Activity, whole string, on page.Medium) string {
	short := tidy(on, p.ShortName(a))
	if short == "" {
		short, _ = IDWords(p.ActivityID(a))
	}
	if short == "" {
		short = CutWords(on, whole, CutName)
	}
	short = CutWords(on, short, 2*CutName)
	if on.Columns(whole) <= on.Columns(short) {
		return whole
	}
	return short
}

func tidy(on page.Medium, s string) string { return strings.TrimSpace(on.Clean(s)) }

// IDWords returns an id with blanks for its hyphens, if that is words.
func IDWords(id string) (string, bool) {
	words := strings.FieldsFunc(id, func(r rune) bool { return r == '-' || r == '_' })
	for _, w := range words {
		letters := strings.IndexFunc(w, func(r rune) bool { return r < 'a' || r > 'z' }) < 0
		if !letters || len(w) < 2 || !strings.ContainsAny(w, "aeiouy") {
			return "", false
		}
	}
	return strings.Join(words, " "), len(words) > 0
}

// CutWords returns a text, or as much of it as fits so many columns with an ellipsis, cut at
// the end of a word where one ends in the second half.
func CutWords(on page.Medium, s string, columns int) string {
	if on.Columns(s) <= columns {
		return s
	}
	cut := on.Head(s, columns-1)
	if i := strings.LastIndexByte(cut, ' '); i*2 > len(cut) {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ") + "…"
}
