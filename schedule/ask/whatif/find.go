package whatif

import (
	"strings"

	"build.example/turflast/schedule"
)

// kind is what a name of the plan stands for.
type kind uint8

const (
	task kind = iota
	delivery
	given
	crew
	machine
	kinds
)

func (k kind) String() string { return [...]string{"task", "delivery", "given", "crew", "machine"}[k] }

// can says which changes a thing of a kind allows.
func (k kind) can() string {
	return [...]string{
		"a task gets longer or shorter, is dropped, linked, stops, gets an appointment, heads, machines or other zones",
		"a delivery comes later, earlier, or on a date and time, or is dropped",
		"a given is there later, earlier, or from a date and time",
		"a crew has more or fewer on a date, works, or is away",
		"a machine is away, or ours for longer",
	}[k]
}

// named returns the id and the name of the i-th thing of a kind; ok is false past the
// last.
func (a *applying) named(k kind, i int) (id, name string, ok bool) {
	p := a.p
	switch {
	case k == task && i < len(p.Tasks):
		return p.Tasks[i].ID, p.Tasks[i].Name, true
	case k == delivery && i < len(p.Deliveries):
		return p.Deliveries[i].ID, p.Deliveries[i].What, true
	case k == given && i < len(p.Givens):
		return p.Givens[i].ID, p.Givens[i].What, true
	case k == crew && i < len(p.Crews):
		return p.Crews[i].ID, p.Crews[i].Name, true
	case k == machine && i < len(p.Machines):
		return p.Machines[i].ID, p.Machines[i].Name, true
	}
	return "", "", false
}

// find returns what the change names, among some kinds: by its id or else by its name.
// Without any it sets the fault.
func (a *applying) find(known ...kind) (kind, int) {
	for _, byName := range [...]bool{false, true} {
		for _, k := range known {
			if i := a.search(k, byName); i >= 0 {
				return k, i
			}
		}
	}
	a.unknown(known)
	return 0, 0
}

// search returns the index of what the change names in the plan's list, or -1.
func (a *applying) search(k kind, byName bool) int {
	for i := 0; ; i++ {
		id, name, ok := a.named(k, i)
		switch {
		case !ok:
			return -1
		case !byName && id == a.c.Name, byName && strings.EqualFold(name, a.c.Name):
			return i
		}
	}
}

// instead says what may be done with a thing that the change can't be of, and of what
// alone it can be where that isn't plain.
func (a *applying) instead(k kind) string {
	if a.c.Kind == schedule.ChangeStop {
		return "only tasks stop; " + k.can()
	}
	return k.can()
}

// unknown sets the fault, with a hint at what the name may have been meant to be.
func (a *applying) unknown(known []kind) {
	for k := range kinds {
		for _, byName := range [...]bool{false, true} {
			if a.search(k, byName) >= 0 {
				a.fail(a.c.Columns.Name, a.instead(k), "%s is a %s", schedule.QuoteWord(a.c.Name), k)
			}
		}
	}
	var ids, names, words []string
	for _, k := range known {
		words = append(words, k.String())
		for i := 0; ; i++ {
			id, name, ok := a.named(k, i)
			if !ok {
				break
			}
			ids, names = append(ids, id), append(names, name)
		}
	}
	hint := ""
	if near := schedule.Nearest(a.c.Name, append(ids, names...)); near != "" {
		hint = "did you mean " + schedule.QuoteWord(near) + "?"
	} else if len(ids) > 0 && len(ids) <= 12 {
		hint = "known are " + strings.Join(ids, ", ")
	}
	a.fail(a.c.Columns.Name, hint, "there is no %s %s", strings.Join(words, " or "), schedule.QuoteWord(a.c.Name))
}
