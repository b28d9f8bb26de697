package planfile

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

var linkKinds = []string{
	schedule.FinishStart.String(), schedule.StartStart.String(),
	schedule.FinishFinish.String(), schedule.StartFinish.String(),
}

// readAfter reads what a task comes after: tasks, by name or as a link, and
// givens.
func (r *reader) readAfter(it *item, id schedule.TaskID, t *schedule.Task) {
	type end struct {
		from int
		kind schedule.LinkKind
	}
	seen := map[end]bool{}
	of := it.of("after")
	for _, entry := range r.list(it.get("after"), of) {
		if g, ok := r.given(entry); ok {
			for _, other := range t.Givens {
				if int(other) == g {
					r.twice(entry, of)
				}
			}
			r.givens.used[g] = true
			t.Givens = append(t.Givens, schedule.GivenID(g))
			continue
		}
		l, ok := r.readLink(entry, of)
		if !ok {
			continue
		}
		switch e := (end{int(l.From), l.Kind}); {
		case l.From == id:
			r.fault(l.Pos, "take it out", "%s names the task itself", of)
		case seen[e]:
			r.fault(l.Pos, "take one out", "%s has the link %s from %s twice", of, l.Kind, r.tasks.list[l.From])
		default:
			seen[e] = true
			t.After = append(t.After, l)
		}
	}
}

// given is the index of a given named alone.
func (r *reader) given(n *yaml.Node) (int, bool) {
	if n.Kind != yaml.ScalarNode || n.Style != 0 || r.faulty[n] {
		return 0, false
	}
	if _, isTask := r.tasks.index[n.Value]; isTask {
		return 0, false
	}
	g, ok := r.givens.index[n.Value]
	return g, ok
}

func (r *reader) readLink(n *yaml.Node, of label) (l schedule.Link, ok bool) {
	l.Pos = posOf(n)
	if n.Kind != yaml.MappingNode {
		from, ok := r.findPredecessor(n, of)
		l.From = schedule.TaskID(from)
		return l, ok
	}
	it, ok := r.item(n, "an entry of "+of.String(), keys.Link)
	if !ok {
		return l, false
	}
	it.required()
	before := r.fatal
	from, ok := r.findPredecessor(it.get("task"), it.of("task"))
	l.From = schedule.TaskID(from)
	l.Kind = r.readLinkKind(it.get("link"), it.of("link"))
	l.Wait = r.readWait(&it)
	l.Within, l.HasWithin = it.wait("within")
	if l.HasWithin && l.Wait.Kind == schedule.Cure && l.Within < l.Wait.Time {
		r.fault(posOf(it.get("within")), "the longest time is at least the cure",
			"%s: %q is less than the cure %q", it.of("within"), it.get("within").Value, it.get("cure").Value)
	}
	return l, ok && r.fatal == before
}

// findPredecessor is the index of a task that a task comes after.
func (r *reader) findPredecessor(n *yaml.Node, of label) (int, bool) {
	s, ok := r.plain(n, of)
	if !ok {
		return 0, false
	}
	if i, ok := r.tasks.index[s]; ok {
		return i, true
	}
	if d, is := r.deliveries.index[s]; is {
		r.deliveries.used[d] = true
		r.fault(posOf(n), fmt.Sprintf("write uses: [%s]", s), "%s names %s, which is a delivery", of, quote(s))
		return 0, false
	}
	if g, is := r.givens.index[s]; is {
		r.givens.used[g] = true
		r.fault(posOf(n), "name a given alone, without a link", "%s names %s, which is a given", of, quote(s))
		return 0, false
	}
	if !r.tasks.broken && !r.givens.broken {
		r.fault(posOf(n), r.suggest(s, "task", r.before), "unknown task %s in %s", quote(s), of)
	}
	return 0, false
}

func (r *reader) readLinkKind(n *yaml.Node, of label) schedule.LinkKind {
	s, ok := r.plain(n, of)
	if !ok {
		return schedule.FinishStart
	}
	for k, name := range linkKinds {
		if s == name {
			return schedule.LinkKind(k)
		}
	}
	hint := "write one of " + strings.Join(linkKinds, ", ")
	if near := r.nearest(s, linkKinds); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	r.fault(posOf(n), hint, "unknown kind of link %s", quote(s))
	return schedule.FinishStart
}

// readWait reads the lag or the cure of a link.
func (r *reader) readWait(it *item) schedule.Wait {
	if it.has("lag") && it.has("cure") {
		it.refuse("a wait is either a lag, in working time, or a cure, on the clock", "cure")
		return schedule.Wait{}
	}
	if it.has("lag") {
		lag, _ := r.length(it.get("lag"), calendars.ParseLag, it.of("lag"))
		return schedule.Wait{Kind: schedule.Lag, Time: lag}
	}
	if it.has("cure") {
		cure, _ := it.wait("cure")
		return schedule.Wait{Kind: schedule.Cure, Time: cure}
	}
	return schedule.Wait{}
}
