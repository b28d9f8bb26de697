package edit

import (
	"fmt"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
)

// pair is a key and its value as the text has them.
type pair struct{ key, value string }

// thing writes a task or a lorry that is new behind the last of its section, in lines or in
// brackets as that one is.
func (w *writer) thing(section, id string, pairs []pair) {
	if w.err != nil {
		return
	}
	var flow, lines []string
	for _, p := range pairs {
		flow = append(flow, p.key+": "+p.value)
		lines = append(lines, "\n  "+p.key+": "+p.value)
	}
	n := w.find(section)
	if n == nil {
		w.do(w.put("\n  "+id+": {"+strings.Join(flow, ", ")+"}", section))
		return
	}
	last := n.Content[len(n.Content)-1]
	text := id + ": {" + strings.Join(flow, ", ") + "}"
	if last.Kind == yaml.MappingNode && block(last) {
		text = id + ":" + strings.Join(lines, "")
	}
	w.do(w.insert(n, len(n.Content)/2, text))
}

// taskKeys are the keys of a task that a change made up.
func (w *writer) taskKeys(t *schedule.Task) []pair {
	p := w.want
	var zones, crew, machines, after []string
	for _, z := range t.Zones {
		zones = append(zones, p.Zones[z].ID)
	}
	for _, c := range t.Crew {
		crew = append(crew, p.Crews[c.Crew].ID+": "+heads(c))
	}
	for _, m := range t.Machines {
		machines = append(machines, fmt.Sprintf("%s: %d", p.Machines[m.Machine].ID, m.Count))
	}
	for _, l := range w.links(p, t.After) {
		after = append(after, l.text)
	}
	after = append(after, given(p, t.Givens)...)
	out := []pair{{"name", quoted(t.Name)}, {"zone", oneOrList(zones)}, {"stage", p.Stages[t.Stage]}}
	out = appendPair(out, "crew", crew, "{", "}")
	out = appendPair(out, "machines", machines, "{", "}")
	if t.Effort.Shared() {
		out = append(out, pair{"person_hours", personHours(t)})
	} else {
		out = append(out, pair{"takes", length(t.Effort.Takes)})
	}
	out = appendPair(out, "after", after, "[", "]")
	out = appendPair(out, "uses", w.lorries(p, t.Uses), "[", "]")
	if t.Cure > 0 {
		out = append(out, pair{"cure", length(t.Cure)})
	}
	if t.Optional {
		out = append(out, pair{"optional", "true"})
	}
	return out
}

// deliveryKeys are the keys of a lorry that a change made up.
func (w *writer) deliveryKeys(d *schedule.Delivery) []pair {
	out := []pair{{"what", quoted(d.What)}, {"arrives", w.moment(d.Arrives)}, {"unload", length(d.Unload.Takes)}}
	if d.Keep > 0 {
		out = append(out, pair{"keep", clock(d.Keep)})
	}
	if d.Out {
		out = append(out, pair{"out", "true"})
	}
	var after []string
	for _, l := range d.After {
		after = append(after, w.want.Tasks[l.From].ID)
	}
	return appendPair(out, "after", append(after, given(w.want, d.Givens)...), "[", "]")
}

// clock is a length on the clock, in days where those are whole.
func clock(m calendars.Minutes) string {
	if m > calendars.Day && m%calendars.Day == 0 {
		return fmt.Sprintf("%dd", m/calendars.Day)
	}
	return length(m)
}

// appendPair adds a key whose value is a list or mapping, unless that is empty.
func appendPair(out []pair, key string, all []string, open, end string) []pair {
	if len(all) == 0 {
		return out
	}
	return append(out, pair{key, open + strings.Join(all, ", ") + end})
}

func oneOrList(all []string) string {
	if len(all) == 1 {
		return all[0]
	}
	return "[" + strings.Join(all, ", ") + "]"
}

// plainText is text that is read as itself without quotes, inside brackets too.
var plainText = regexp.MustCompile(`^\p{L}[\p{L}\p{N} .()/+'-]*$`)

// quoted is text for people, in quotes where it needs them.
func quoted(s string) string {
	switch strings.ToLower(s) {
	case "null", "true", "false", "yes", "no", "on", "off", "y", "n":
		return `"` + s + `"`
	}
	if plainText.MatchString(s) && !strings.HasSuffix(s, " ") {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", "''") + "'"
}
