package sitelog

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"build.example/turflast/schedule"
)

// field is a key of a line.
type field struct {
	key  string
	said func(*Event) bool
}

var (
	task     = field{"task", func(e *Event) bool { return e.Task != "" }}
	delivery = field{"delivery", func(e *Event) bool { return e.Delivery != "" }}
	crew     = field{"crew", func(e *Event) bool { return e.Crew != "" }}
	given    = field{"given", func(e *Event) bool { return e.Given != "" }}
	desk     = field{"desk", func(e *Event) bool { return e.Desk != "" }}
	machine  = field{"machine", func(e *Event) bool { return e.Machine != "" }}
	was      = field{"was", func(e *Event) bool { return e.Was != 0 }}
	to       = field{"to", func(e *Event) bool { return e.To != 0 }}
	date     = field{"date", func(e *Event) bool { return e.Date != 0 }}
	from     = field{"from", func(e *Event) bool { return e.From != 0 }}
	until    = field{"until", func(e *Event) bool { return e.Until != 0 }}
	text     = field{"text", func(e *Event) bool { return e.Text != "" }}
	of       = field{"of", func(e *Event) bool { return e.Of != "" }}
	takes    = field{"takes_minutes", func(e *Event) bool { return e.Takes != 0 }}
	signedBy = field{"signed_by", func(e *Event) bool { return e.What == Signed && e.Who != "" }}
	duty     = field{"duty", func(e *Event) bool { return e.Duty != "" }}
	who      = field{"who", func(e *Event) bool { return e.What != Signed && e.Who != "" }}
	zone     = field{"zone", func(e *Event) bool { return e.Zone != "" }}
	after    = field{"after", func(e *Event) bool { return e.Follows != "" }}
	before   = field{"before", func(e *Event) bool { return e.Precedes != "" }}
	heads    = field{"people", func(e *Event) bool { return e.People != 0 }}
)

// fields are the keys that a kind of event needs and those that it may have,
// without left_minutes.
type fields struct{ needs, may []field }

// shapes says of each kind of event which keys it has.
var shapes = map[Kind]fields{
	Started:    {needs: []field{task}, may: []field{crew, heads}},
	Finished:   {needs: []field{task}},
	Left:       {needs: []field{task}},
	Paused:     {needs: []field{task, text}},
	Resumed:    {needs: []field{task}},
	Arrived:    {needs: []field{delivery}},
	Unloaded:   {needs: []field{delivery}},
	Gone:       {needs: []field{delivery}},
	Loaded:     {needs: []field{delivery}},
	Short:      {needs: []field{delivery, text}, may: []field{to}},
	Ordered:    {needs: []field{delivery}, may: []field{text}},
	Confirmed:  {needs: []field{delivery}, may: []field{text}},
	Refused:    {needs: []field{delivery, text}},
	Rebooked:   {needs: []field{delivery, to}, may: []field{text}},
	Signed:     {needs: []field{task}, may: []field{signedBy, text, takes, crew, heads, until}},
	Failed:     {needs: []field{task, text}, may: []field{takes, crew, heads}},
	Appointed:  {needs: []field{task}, may: []field{to, was, text}},
	SlotGot:    {needs: []field{machine, from, until}, may: []field{text}},
	SlotLost:   {needs: []field{machine, from, until}, may: []field{text}},
	Away:       {needs: []field{machine}, may: []field{until, text}},
	Back:       {needs: []field{machine}},
	Given:      {needs: []field{given}},
	Settled:    {needs: []field{desk}, may: []field{text}},
	Wet:        {needs: []field{date}, may: []field{from, until}},
	Windy:      {needs: []field{date}, may: []field{from, until}},
	Frost:      {needs: []field{date}, may: []field{from, until}},
	Heat:       {needs: []field{date}, may: []field{from, until}},
	People:     {needs: []field{crew, date}, may: []field{heads, from, until}},
	DutyDone:   {needs: []field{duty, date}, may: []field{who}},
	Accident:   {needs: []field{text}, may: []field{zone, task, who}},
	NearMiss:   {needs: []field{text}, may: []field{zone, task, who}},
	Closed:     {needs: []field{of}, may: []field{text}},
	Note:       {needs: []field{text}, may: []field{task, delivery}},
	SnagOpened: {needs: []field{text}, may: []field{task}},
	SnagClosed: {needs: []field{of}, may: []field{text}},
	Added:      {needs: []field{task, text, zone, takes, crew}, may: []field{heads, after, before, until}},
	Cancelled:  {needs: []field{task}, may: []field{text}},
	Undone:     {needs: []field{of}, may: []field{text}},
}

// Kinds are the kinds of event, in the order in which they are explained.
func Kinds() []Kind {
	return []Kind{Started, Finished, Left, Paused, Resumed, Arrived, Unloaded, Gone, Short, Refused, Rebooked, Loaded,
		Ordered, Confirmed, Signed, Failed, Appointed, SlotGot, SlotLost, Away, Back, Given, Settled, Wet, Windy, Frost, Heat,
		People, DutyDone, Accident, NearMiss, Closed, Note, SnagOpened, SnagClosed, Added, Cancelled, Undone}
}

// shape says which key an event lacks, or has and can't have, and why.
func (e *Event) shape(left, people bool) (key string, err error) {
	switch {
	case e.ID == "":
		return "id", errors.New("an event needs an id")
	case e.At == 0:
		return "at", errors.New("an event needs the moment at which it was true (at)")
	case e.Written == 0:
		return "written", errors.New("an event needs the moment at which it was written (written)")
	}
	if key := e.unprintable(); key != "" {
		return key, fmt.Errorf("%s holds a control character; leave it out", key)
	}
	f, known := shapes[e.What]
	if !known {
		return "what", fmt.Errorf("%q is no kind of event that this turflast knows", e.What)
	}
	if key, err := e.keys(f); err != nil {
		return key, err
	}
	return e.figures(left, people)
}

// keys says which key an event of some fields lacks, or has and can't have.
func (e *Event) keys(f fields) (key string, err error) {
	all := []field{task, delivery, crew, given, machine, desk, to, was, date, from, until, text, of, takes, heads,
		signedBy, duty, who, zone, after, before}
	for _, x := range f.needs {
		if !x.said(e) {
			return "what", fmt.Errorf("an event %q needs %q", e.What, x.key)
		}
	}
	for _, x := range all {
		if x.said(e) && !has(f.needs, x) && !has(f.may, x) {
			return x.key, fmt.Errorf("an event %q has no %q", e.What, x.key)
		}
	}
	if e.What == Appointed && e.To == 0 && e.Was == 0 {
		return "what", fmt.Errorf("an event %q needs %q, or %q", Appointed, "to", "was")
	}
	return e.terms()
}

// unprintable is the key of a text that could make a terminal do something.
func (e *Event) unprintable() (key string) {
	for _, x := range [...]struct{ key, text string }{
		{"id", e.ID}, {"by", e.By}, {"task", e.Task}, {"delivery", e.Delivery},
		{"crew", e.Crew}, {"given", e.Given}, {"machine", e.Machine}, {"desk", e.Desk}, {"text", e.Text},
		{"of", e.Of},
		{"duty", e.Duty}, {"who", e.Who}, {"zone", e.Zone}, {"after", e.Follows}, {"before", e.Precedes},
	} {
		if strings.ContainsFunc(x.text, unicode.IsControl) {
			return x.key
		}
	}
	return ""
}

func has(list []field, x field) bool {
	for _, f := range list {
		if f.key == x.key {
			return true
		}
	}
	return false
}

// terms says what is wrong with the work that an event adds, and why.
func (e *Event) terms() (key string, err error) {
	if e.What == Signed {
		for _, x := range []field{takes, crew, until} {
			switch {
			case e.Text != "" && !x.said(e):
				return "text", fmt.Errorf("a condition needs %q", x.key)
			case e.Text == "" && x.said(e):
				return x.key, fmt.Errorf("an event %q has no %q without a condition (text)", e.What, x.key)
			}
		}
	}
	if e.What == Added && !schedule.IsID(e.Task) {
		return "task", fmt.Errorf("task %q is no id: a letter, then letters, digits and hyphens", e.Task)
	}
	return "", nil
}

// figures says which count of an event is missing, out of place or out of
// range, and why.
func (e *Event) figures(left, people bool) (key string, err error) {
	switch {
	case left != (e.What == Left):
		return "left_minutes", fmt.Errorf("left_minutes belongs to an event %q, and to no other", Left)
	case e.Left < 0 || e.Left > mostLeft:
		return "left_minutes", fmt.Errorf("left_minutes %d isn't between 0 and %d", e.Left, mostLeft)
	case e.Takes < 0 || e.Takes > mostLeft:
		return "takes_minutes", fmt.Errorf("takes_minutes %d isn't between 1 and %d", e.Takes, mostLeft)
	}
	if key, err := e.hours(); err != nil {
		return key, err
	}
	return e.heads(people)
}

// hours says what is wrong with the time from and until which something is so: of a machine
// that is away it begins as that is true.
func (e *Event) hours() (key string, err error) {
	switch {
	case e.What == Away && e.Until != 0 && e.Until <= e.At:
		return "until", errors.New("until comes after the moment at which it was true (at)")
	case e.What != Away && e.What != Added && e.What != Signed && (e.From == 0) != (e.Until == 0):
		return "from", errors.New("hours need both from and until")
	case e.From != 0 && e.From >= e.Until:
		return "until", errors.New("until comes after from")
	}
	return "", nil
}

// heads says what is wrong with the people of an event, which are there or not.
func (e *Event) heads(there bool) (key string, err error) {
	switch {
	case !there && e.What == People:
		return "what", fmt.Errorf("an event %q needs %q", e.What, "people")
	case there && e.People == 0 && e.What != People:
		return "people", errors.New("people is at least 1, where it isn't how many turned up")
	case e.People != 0 && e.Crew == "":
		return "people", errors.New("people needs the crew too")
	case e.People < 0 || e.People > mostPeople:
		return "people", fmt.Errorf("people %d isn't between 0 and %d", e.People, mostPeople)
	}
	return "", nil
}

// The most that an event may count.
const (
	mostLeft   = 26 * 7 * 24 * 60 // minutes, as much as the work of a task may be
	mostPeople = 1000
)

// Shape says what is wrong with an event that is made, not read.
func (e *Event) Shape() error {
	_, err := e.shape(e.What == Left, e.What == People || e.People != 0)
	return err
}
