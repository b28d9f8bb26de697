package planfile

import (
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// readAnswers reads what the lead has answered to a review.
func (r *reader) readAnswers(n *yaml.Node) {
	questions := fixedNames("question", schedule.Questions())
	for _, entry := range r.list(n, label{"answered", ""}) {
		it, ok := r.item(entry, "an answer", keys.Answer)
		if !ok {
			continue
		}
		it.required()
		a := schedule.Answer{Pos: it.at, Why: it.words("why", maxText)}
		if k, known := r.find(questions, it.get("asked"), it.of("asked")); known {
			a.Asked = questions.list[k]
		}
		a.About = r.answeredAbout(&it)
		r.plan.Answers = append(r.plan.Answers, a)
	}
}

// answeredAbout reads what an answer is about: one id or a list of some.
func (r *reader) answeredAbout(it *item) []string {
	n, of := it.get("about"), it.of("about")
	if n == nil {
		return nil
	}
	entries := []*yaml.Node{n}
	if n.Kind == yaml.SequenceNode {
		entries = r.filled(n, "name at least one, or take out the key", of)
	}
	var out []string
	for _, e := range entries {
		id, ok := r.plain(e, of)
		switch {
		case !ok:
		case slices.Contains(out, id):
			r.twice(e, of)
		case r.anything(e, id, of):
			out = append(out, id)
		}
	}
	return out
}

// anything says whether an id is that of a task, a delivery or a crew, and reports one that
// is none. It doesn't count as a use: an answer needs nothing.
func (r *reader) anything(n *yaml.Node, id string, of label) bool {
	var known []string
	for _, t := range []*names{r.tasks, r.deliveries, r.crews} {
		if _, is := t.index[id]; is || t.broken {
			return is
		}
		known = append(known, t.list...)
	}
	r.fault(posOf(n), r.suggest(id, "task", known), "%s names %s, which is no task, delivery or crew", of, quote(id))
	return false
}
