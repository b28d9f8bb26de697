package review_test

import (
	"errors"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/ask/review"
	"build.example/turflast/schedule/planfile"
	"build.example/turflast/schedule/planfile/edit"
	"build.example/turflast/schedule/show/wording"
	"build.example/turflast/testdata"
)

func read(t testing.TB, text string) *schedule.Plan {
	t.Helper()
	p, problems := planfile.Read(strings.NewReader(text))
	if problems.Fatal() {
		t.Fatalf("%v\n%s", problems.Faults(), text)
	}
	return p
}

func ask(t testing.TB, p *schedule.Plan) []review.Finding {
	t.Helper()
	found, err := review.Review(p, review.Records{})
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func file(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// asked says whether a question is asked of something: of an id, or of the plan as a whole
// if that is empty.
func asked(p *schedule.Plan, found []review.Finding, question, id string) *review.Item {
	for k := range found {
		for i := range found[k].Items {
			item := &found[k].Items[i]
			if found[k].Question == question && idOf(p, item) == id {
				return item
			}
		}
	}
	return nil
}

func idOf(p *schedule.Plan, i *review.Item) string {
	switch {
	case i.Crew != schedule.None:
		return p.Crews[i.Crew].ID
	case i.Activity != schedule.Nothing:
		return p.ActivityID(i.Activity)
	}
	return ""
}

// Plans that are sound, the built-in one and the starter hold nothing grave; those made to
// be asked nothing are asked nothing.
func TestSoundPlans(t *testing.T) {
	plans := map[string]string{"built-in": testdata.Demo, "starter": testdata.Starter}
	for _, name := range []string{"courtyard.yaml", "roof.yaml", "pond.yaml"} {
		plans[name] = file(t, name)
	}
	for name, text := range plans {
		p := read(t, text)
		for _, f := range ask(t, p) {
			if f.Rank == review.Grave || strings.HasSuffix(name, ".yaml") {
				t.Errorf("%s: rank %d: %s of %s", name, f.Rank, f.Question, idOf(p, &f.Items[0]))
			}
		}
	}
}

// spoilt is a sound plan spoilt on purpose in one way.
type spoilt struct {
	text         string
	question, of string
	rank         string
}

// spoiltPlans reads testdata/spoilt.txt.
func spoiltPlans(t *testing.T) (out []spoilt) {
	t.Helper()
	for _, part := range strings.Split(file(t, "spoilt.txt"), "\n\n")[1:] {
		lines := strings.Split(strings.TrimRight(part, "\n"), "\n")
		head := strings.Split(lines[0], ": ")
		s := spoilt{rank: head[1], text: file(t, head[2]+".yaml")}
		s.question, s.of, _ = strings.Cut(head[0], " of ")
		for k := 1; k < len(lines); k += 2 {
			was := strings.ReplaceAll(lines[k][2:], `\n`, "\n")
			if strings.Count(s.text, was) == 0 {
				t.Fatalf("%s: no %q in\n%s", lines[0], was, s.text)
			}
			s.text = strings.Replace(s.text, was, strings.ReplaceAll(lines[k+1][2:], `\n`, "\n"), 1)
		}
		out = append(out, s)
	}
	return out
}

// Every plan that is spoilt in one way is asked about it, as gravely as it is; what the
// answer says to write is understood, and then it isn't asked any more.
func TestSpoiltPlans(t *testing.T) {
	all := spoiltPlans(t)
	if len(all) < 40 {
		t.Fatal(len(all))
	}
	seen := map[string]bool{"progress": true, "baseline": true} // of records, see TestRecords
	for _, s := range all {
		seen[s.question] = true
		t.Run(s.question+" of "+s.of, func(t *testing.T) {
			p := read(t, s.text)
			found := ask(t, p)
			item := asked(p, found, s.question, s.of)
			if item == nil {
				t.Fatalf("isn't asked; asked are %v", names(found))
			}
			for _, f := range found {
				if rank := strings.ToLower(wording.ReviewRank(f.Rank)); f.Question == s.question && rank != s.rank {
					t.Errorf("it is %s, not %s", rank, s.rank)
				}
			}
		})
	}
	for _, q := range schedule.Questions() {
		if !seen[q] {
			t.Errorf("no plan is spoilt for %q", q)
		}
	}
}

func names(found []review.Finding) (out []string) {
	for i := range found {
		out = append(out, found[i].Question)
	}
	return out
}

// What is advised was tried: for all that is asked of spoilt plans, of the built-in one and
// of the starter, what is to be written reads and takes the question away, and so does the
// answer.
func TestAdviceTakesTheQuestionAway(t *testing.T) {
	texts := []string{testdata.Demo, testdata.Starter}
	for _, s := range spoiltPlans(t) {
		texts = append(texts, s.text)
	}
	tried, advised := 0, 0
	for _, text := range texts {
		p := read(t, text)
		words := wording.New(p)
		for _, f := range ask(t, p) {
			for i := range f.Items {
				tried++
				item := &f.Items[i]
				if len(item.Edits) == 0 {
					continue
				}
				advised++
				q := read(t, edited(t, text, item.Edits))
				written(t, text, item.Edits)
				if asked(q, ask(t, q), f.Question, idOf(p, item)) != nil {
					t.Errorf("%s of %q is asked after %v", f.Question, idOf(p, item), item.Edits)
				}
			}
			q := read(t, text+"\nanswered:\n  "+words.AnswerLine(&f)+"\n")
			for _, left := range ask(t, q) {
				if left.Question == f.Question && left.Rank == f.Rank {
					t.Errorf("%s is asked after its answer %s", f.Question, words.AnswerLine(&f))
				}
			}
		}
	}
	if tried < 60 || advised < tried*3/4 {
		t.Errorf("%d of %d questions come with what to write", advised, tried)
	}
}

// written fails unless the edits, written into the text as people type, make the tree of edited.
func written(t *testing.T, text string, edits []review.Edit) {
	t.Helper()
	do := map[review.How]edit.Do{review.Set: edit.Put, review.Add: edit.Add, review.TakeOut: edit.Drop,
		review.Swap: edit.Swap}
	var steps []edit.Step
	for _, e := range edits {
		steps = append(steps, edit.Step{Do: do[e.How], Way: e.Path, Value: e.Value, Of: e.Of})
	}
	out, err := edit.Take([]byte(text), steps)
	if err != nil {
		t.Errorf("%v isn't written: %v", edits, err)
		return
	}
	var got, want any
	if err := errors.Join(yaml.Unmarshal(out, &got), yaml.Unmarshal([]byte(edited(t, text, edits)), &want)); err != nil ||
		!reflect.DeepEqual(got, want) {
		t.Errorf("%v: %v\n%s", edits, err, out)
	}
}

// edited is a plan after edits, made in its tree: how lines look isn't asked here.
func edited(t *testing.T, text string, edits []review.Edit) string {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	for _, e := range edits {
		at := doc.Content[0]
		for _, key := range e.Path[:len(e.Path)-1] {
			at = child(at, key)
		}
		apply(t, at, e)
	}
	unfold(&doc)
	out, err := yaml.Marshal(&doc)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// unfold takes all flow style out: in it the writer quotes hours, which a plan doesn't.
func unfold(n *yaml.Node) {
	n.Style &^= yaml.FlowStyle
	for _, c := range n.Content {
		unfold(c)
	}
}

// child is the value of a key, which is made a mapping if it isn't there.
func child(n *yaml.Node, key string) *yaml.Node {
	if k := keyOf(n, key); k >= 0 {
		return n.Content[k+1]
	}
	made := &yaml.Node{Kind: yaml.MappingNode}
	n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, made)
	return made
}

func keyOf(n *yaml.Node, key string) int {
	for k := 0; k < len(n.Content); k += 2 {
		if n.Content[k].Value == key {
			return k
		}
	}
	return -1
}

func apply(t *testing.T, at *yaml.Node, e review.Edit) {
	t.Helper()
	key := e.Path[len(e.Path)-1]
	k := keyOf(at, key)
	var value yaml.Node
	if err := yaml.Unmarshal([]byte(e.Value), &value); err != nil {
		t.Fatalf("%q: %v", e.Value, err)
	}
	switch {
	case e.How == review.TakeOut:
		at.Content = slices.Delete(at.Content, k, k+2)
	case e.How == review.Add && k >= 0:
		at.Content[k+1].Content = append(at.Content[k+1].Content, value.Content[0])
	case e.How == review.Add:
		list := &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{value.Content[0]}}
		at.Content = append(at.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, list)
	case e.How == review.Swap:
		links := at.Content[k+1].Content
		i := slices.IndexFunc(links, func(n *yaml.Node) bool {
			return keyOf(n, "lag") >= 0 && n.Content[keyOf(n, "task")+1].Value == e.Of
		})
		links[i] = value.Content[0]
	case k >= 0:
		at.Content[k+1] = value.Content[0]
	default:
		at.Content = append(at.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, value.Content[0])
	}
}

// What the log and the baselines leave open is asked once there is a moment: of a log that says
// nothing for two days of the site, of work under way of which it says nothing, of a plan without
// a baseline from two weeks before the opening on, and of work that is in none.
func TestRecords(t *testing.T) {
	p := read(t, file(t, "courtyard.yaml")) // opens Thursday 3 June 2027, 8 h 30 a day
	at := func(day, hour int) calendars.Instant {
		i, _ := calendars.At(p.Site.Location, calendars.DateOf(2027, 6, day), calendars.Minutes(hour)*calendars.Hour)
		return i
	}
	agreed := map[string]bool{}
	for i := range p.Tasks {
		agreed[p.Tasks[i].ID] = true
	}
	less := map[string]bool{}
	for id := range agreed {
		less[id] = id != "oil"
	}
	may, _ := calendars.At(p.Site.Location, calendars.DateOf(2027, 5, 20), 6*calendars.Hour)
	for name, x := range map[string]struct {
		known review.Records
		want  []string // question of id
	}{
		"no moment":            {review.Records{}, nil},
		"long before":          {review.Records{Now: may}, nil},
		"before":               {review.Records{Now: at(2, 12)}, []string{"baseline of "}},
		"agreed":               {review.Records{Now: at(2, 12), Agreed: agreed}, nil},
		"new work":             {review.Records{Now: at(2, 12), Agreed: less}, []string{"baseline of oil"}},
		"a day of silence":     {review.Records{Now: at(4, 12), Agreed: agreed}, nil},
		"two days of silence":  {review.Records{Now: at(4, 17), Agreed: agreed}, []string{"progress of "}},
		"said yesterday":       {review.Records{Now: at(7, 12), Said: at(4, 12), Agreed: agreed}, nil},
		"said, over a weekend": {review.Records{Now: at(8, 12), Said: at(4, 12), Agreed: agreed}, []string{"progress of "}},
		"all is done":          {review.Records{Now: at(15, 12), Said: at(4, 12), Agreed: agreed, Done: true}, nil},
		"work nobody speaks of": {review.Records{Now: at(8, 12), Said: at(8, 9), Agreed: agreed,
			UnderWay: map[string]calendars.Instant{"dig": at(3, 12), "bed": at(8, 9)}}, []string{"progress of dig"}},
	} {
		found, err := review.Review(p, x.known)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range found {
			for i := range f.Items {
				got = append(got, f.Question+" of "+idOf(p, &f.Items[i]))
			}
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("%s: asked %q, not %q", name, got, x.want)
		}
	}
}
