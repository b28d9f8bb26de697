package planfile

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// builtInRule is the name of the one rule that every plan has.
const builtInRule = "way in"

// readRules reads the rules of the plan. Faulty ones are known by their text
// too, so that a task excused from one is no second fault.
func (r *reader) readRules(n *yaml.Node) {
	of := label{"rules", ""}
	r.rulesBroken = n != nil && n.Kind != yaml.SequenceNode
	r.ruleByText = map[string]schedule.RuleID{}
	seen := map[string]int{}
	for _, entry := range r.list(n, of) {
		text := r.words(entry, maxText, label{"a rule", ""})
		if text == "" {
			continue
		}
		rule, faults := parseRule(text, r.stages.list, r.nearest)
		rule.Pos = posOf(entry)
		for _, f := range faults {
			r.fault(r.within(entry, f.Offset), f.Hint, "rule %s: %s", quote(rule.Text), f.Text)
		}
		if len(faults) == 0 {
			says := meaning(&rule)
			if line, again := seen[says]; again {
				r.fault(rule.Pos, "take one out", "rule %s says what the rule on line %d says", quote(rule.Text), line)
			} else {
				seen[says] = rule.Pos.Line
			}
		}
		if _, known := r.ruleByText[rule.Text]; !known {
			r.ruleByText[rule.Text] = schedule.RuleID(len(r.plan.Rules))
		}
		r.plan.Rules = append(r.plan.Rules, rule)
	}
}

// within is the place of a character inside a scalar when the scalar stands in
// the file just as it is read, and otherwise the place of the scalar.
func (r *reader) within(n *yaml.Node, offset int) schedule.Pos {
	at := posOf(n)
	if n.Style == yaml.DoubleQuotedStyle || n.Style == yaml.SingleQuotedStyle {
		at.Column++
	}
	if rest, ok := r.src.from(at); ok && strings.HasPrefix(rest, n.Value) {
		at.Column += offset
		return at
	}
	return posOf(n)
}

// meaning is a text that two rules share when they say the same.
func meaning(rule *schedule.Rule) string {
	first, then := slices.Clone(rule.First), slices.Clone(rule.Then)
	slices.Sort(first)
	slices.Sort(then)
	if rule.Kind == schedule.Apart && slices.Compare(then, first) < 0 {
		first, then = then, first
	}
	return fmt.Sprint(rule.Kind, first, then, rule.Everywhere, rule.HasAfter, rule.After)
}

// readExcepts reads the rules that a task is excused from.
func (r *reader) readExcepts(owner *item) []schedule.Except {
	var out []schedule.Except
	seen := map[schedule.RuleID]bool{}
	for _, entry := range r.list(owner.get("except"), owner.of("except")) {
		it, ok := r.item(entry, "an entry of except of "+owner.name, keys.Except)
		if !ok {
			continue
		}
		it.required()
		e := schedule.Except{Why: it.words("why", maxText)}
		if e.Rule, ok = r.findRule(it.get("rule"), it.of("rule")); !ok {
			continue
		}
		if seen[e.Rule] {
			r.fault(posOf(it.get("rule")), "take one out",
				"%s is excused twice from %s", owner.name, quote(it.get("rule").Value))
			continue
		}
		seen[e.Rule] = true
		out = append(out, e)
	}
	return out
}

func (r *reader) findRule(n *yaml.Node, of label) (schedule.RuleID, bool) {
	text := strings.Join(strings.Fields(r.words(n, maxText, of)), " ")
	if text == "" {
		return 0, false
	}
	if text == builtInRule {
		return schedule.WayIn, true
	}
	if id, ok := r.ruleByText[text]; ok {
		return id, true
	}
	if !r.rulesBroken {
		known := []string{builtInRule}
		for _, rule := range r.plan.Rules {
			known = append(known, rule.Text)
		}
		hint := "write the rule as it stands in rules, or way in"
		if near := r.nearest(text, known); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		r.fault(posOf(n), hint, "unknown rule %s in %s", quote(text), of)
	}
	return 0, false
}
