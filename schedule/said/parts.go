package said

import (
	"regexp"
	"slices"
	"strings"

	"build.example/turflast/schedule"
)

// partRules are the ways to say that a load was loaded, or came short, and that a machine is
// away or back.
func partRules() []rule[Tick] {
	return []rule[Tick]{
		{[]string{"<lorry> /loaded/ <when>?", "/loaded/ <lorry> <when>?"}, loaded},
		{[]string{"short <lorry> <to> <started>? <why>", "short <lorry> <started>? <why>",
			"<lorry> <amount> /missing/ <started>?", "<lorry> <amount> /missing/ <started>? /rest/ <to>"}, short(false)},
		{[]string{"<lorry> /here/ <started>? but? <amount> /missing/", "<part> <lorry> /here/ <started>?",
			"<lorry> /here/ <started>? but? <amount> /missing/ /rest/ <to>",
			"<part> <lorry> /here/ <started>? /rest/ <to>", "arrive <lorry> <started>? short <amount> /rest/ <to>",
			"arrive <lorry> <started>? short <amount>"}, short(true)},
		{[]string{"short <lorry>", "<lorry> /missing/"}, unsaid[Tick]("say what is missing of it, like 40 m2 short")},
		{[]string{"<machine> /broke/ <started>?", "/broke/ <machine> <started>?", "<machine> /broke/ <started>? <why>",
			"/broke/ <machine> <started>? <why>", "<machine> /broke/ <started>? /till/ <to>",
			"/broke/ <machine> <started>? /till/ <to>", "/broke/ <machine> until <to> <started>? <why>",
			"/broke/ <machine> until <to> <started>"}, machineAway},
		{[]string{"<machine> /fixed/ <when>?", "/fixed/ <machine> <when>?"}, simply(Back)},
	}
}

func init() {
	classes["loaded"] = "loaded|loaded up|lifted|cut|batched"
	classes["missing"] = "short|missing|damaged|broken|cracked|too few|too little|not on it"
	classes["rest"] = "rest|rest comes|rest on|rest at|rest is coming|rest to come|remainder|remainder comes|others"
	classes["broke"] = "away|broken|broken down|broke|broke down|down|out of order|not come|hasn't come|isn't here"
	classes["till"] = "until|till|back|to be back|back at|back on"
	classes["fixed"] = "back|back again|fixed|repaired|mended|running again|working again|works again"
}

// loaded is a load that was lifted, cut or batched. A collection that is loaded is asked for.
func loaded(g *Garden, f found) []meaning[Tick] {
	for _, th := range f.things {
		if g.Plan.Deliveries[th.at].Out {
			return asking(f, schedule.QuoteWord(th.id)+" goes out: has it left too", f.tick(Gone))
		}
	}
	return as(f, f.tick(Loaded))
}

// short is a load of which something is missing; came says that it came is said too.
func short(came bool) func(*Garden, found) []meaning[Tick] {
	return func(g *Garden, f found) []meaning[Tick] {
		if g.toCome(f.started) {
			return nil
		}
		t := f.tick(Short)
		t.At, t.To, t.Started = f.started, f.at, nil
		if !came {
			return as(f, t)
		}
		here := f.tick(Arrived)
		here.At, here.Started, here.Text = f.started, nil, ""
		return as(f, here, t)
	}
}

// machineAway is a machine that is broken or hasn't come, perhaps until a moment.
func machineAway(g *Garden, f found) []meaning[Tick] {
	if g.toCome(f.started) {
		return nil
	}
	if m := whyUntil.FindStringSubmatch(f.text); m != nil && f.at == nil {
		if to, err := g.Coming(m[2]); err == nil {
			back := g.said(to)
			f.text, f.at = m[1], &back
		}
	}
	if timed.MatchString(f.text) {
		f = f.doubting("say since when, or until when, alone")
	}
	t := f.tick(Away)
	t.At, t.To, t.Started = f.started, f.at, nil
	return as(f, t)
}

// whyUntil finds a reason that ends with until when it is so.
var whyUntil = regexp.MustCompile(`^(.*[^\s,]),? (?:until|till) (.+)$`)

// timed finds a reason that reads like a time.
var timed = regexp.MustCompile(`^\d|\b(until|till)\b`)

// toCome says whether a moment is said that is still to come: it is then that of the rest, or
// until when, and not that at which something was so.
func (g *Garden) toCome(m *schedule.Moment) bool {
	now := g.said(g.Now.Plus(ahead))
	return m != nil && (m.Date > now.Date || m.Date == now.Date && m.Minute > now.Minute)
}

// then is when the rest of a load comes, or a machine is back, in the normal form of a tick.
func (t *Tick) then() string {
	switch {
	case t.To == nil:
		return ""
	case t.What == Away:
		return "until " + t.To.String()
	}
	return "to " + t.To.String()
}

// mostAmount is how many words may say what is missing before the word for that.
const mostAmount = 5

// readAmount reads what is missing, in words that nobody reads: "40 m2", "3 of 20".
func (s *saying) readAmount(i int, f found) []step {
	var out []step
	for to := i + 1; to <= min(len(s.words), i+mostAmount) && !slices.Contains([]string{",", ":", ";"}, s.at(to-1)); to++ {
		next := f
		next.text = strings.TrimSpace(s.text[s.words[i].from:s.words[to-1].to])
		next.free += to - i
		out = append(out, step{next, to})
	}
	return out
}

// readPart reads which part of a load came: the text is what is missing then.
func (s *saying) readPart(i int, f found) []step {
	var out []step
	for _, p := range [...]struct{ words, missing string }{
		{"half of", "half of it"}, {"half", "half of it"}, {"part of", "part of it"}, {"some of", "part of it"},
		{"most of", "part of it"},
	} {
		from := i
		if s.are(from, "only") {
			from++
		}
		if w := strings.Fields(p.words); s.are(from, w...) {
			f.text = p.missing
			out = append(out, step{f, from + len(w)})
		}
	}
	return out
}
