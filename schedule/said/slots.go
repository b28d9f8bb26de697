package said

import (
	"slices"
	"strings"

	"build.example/turflast/calendars"
)

// slot reads one kind of thing.
type slot struct {
	what  string // with its article
	read  func(*saying, int, found) []step
	over  passes
	kinds kind // of the names that it reads
}

// passes says which words that tell nothing may be passed over before a slot.
type passes uint8

const (
	fillersToo passes = iota
	noColon           // a reason follows it
	noWord            // they belong to what is read
)

// taken are the kinds of what may be taken off a task.
const taken = crews | machines | lorries

// slots are what may stand in a rule between its words.
var slots = map[string]slot{
	"task":    {"a task", list(tasks), fillersToo, tasks},
	"sign":    {"a task to be signed", list(tasks | holds), fillersToo, tasks | holds},
	"lorry":   {"a lorry", list(lorries), fillersToo, lorries},
	"act":     {"a task or a lorry", list(tasks | lorries), fillersToo, tasks | lorries},
	"crew":    {"a crew", list(crews), fillersToo, crews},
	"team":    {"a crew, and how many of it", (*saying).readTeam, fillersToo, crews},
	"partday": {"a part of a day, like from 13:00 to 17:00", (*saying).readPartOfDay, fillersToo, 0},
	"who":     {"a name", (*saying).readWho, noWord, 0},
	"machine": {"a machine", list(machines), fillersToo, machines},
	"zone":    {"a zone", list(zones), fillersToo, zones},
	"duty":    {"a daily duty", (*saying).readDuty, fillersToo, duties},
	"desk":    {"an item of the desk list", list(desks), fillersToo, desks},
	"given":   {"what others provide", list(givens), fillersToo, givens},
	"come":    {"a lorry or what others provide", list(lorries | givens), fillersToo, lorries | givens},
	"gone":    {"a machine or a crew", list(machines | crews), fillersToo, machines | crews},
	"place":   {"site or gate", list(places), fillersToo, places},
	"length":  {"a length like 2 days or 3h", (*saying).readLength, fillersToo, 0},
	"work":    {"a length like 3h or 90 min", (*saying).readWork, fillersToo, 0},
	"count":   {"a number of people", (*saying).readCount, fillersToo, 0},
	"when":    {"a time like 16:00 or yesterday 16:00", moments(past), noColon, 0},
	"to":      {"a moment like Thu 6 May 09:00", moments(coming), fillersToo, 0},
	"asat":    {"a moment like Thu 6 May 09:00", moments(either), fillersToo, 0},
	"started": {"a time like 9:00", (*saying).readStarted, fillersToo, 0},
	"date":    {"a date like Thu 6 May", readDate(coming), fillersToo, 0},
	"ondate":  {"a date like yesterday", readDate(past), fillersToo, 0},
	"dates":   {"a date like Thu 6 May", (*saying).readDates, fillersToo, 0},
	"span":    {"a time like Thu 6 May 13:00 to 15:00", readSpan(coming), fillersToo, 0},
	"spanned": {"a time like 13:00 to 15:00", readSpan(past), fillersToo, 0},
	"until":   {"a time of day like 20:00", hour(1, "to", "till", "until", "til"), fillersToo, 0},
	"amount":  {"what is missing", (*saying).readAmount, fillersToo, 0},
	"part":    {"a part like half", (*saying).readPart, fillersToo, 0},
	"was":     {"a moment like Thu 6 May 09:00", (*saying).readWas, fillersToo, 0},
	"new":     {"a time of day like 10:00", hour(1, "at"), fillersToo, 0},
	"old":     {"a time of day like 8:00", hour(0, "of"), fillersToo, 0},
	"from":    {"a time of day like 06:00", hour(0, "from", "at"), fillersToo, 0},
	"why":     {"a reason", (*saying).readWhy, noWord, 0},
	"text":    {"what there is to say", (*saying).readText, noWord, 0},
	"did":     {"what was done", (*saying).readDid, fillersToo, 0},
	"on":      {"a date like Thu 6 May", (*saying).readAnyDate, fillersToo, 0},
	"more":    {"more or less", (*saying).readMore, fillersToo, 0},
	"needs":   {"a crew or a machine, and how many", (*saying).readNeeds, fillersToo, crews | machines},
	"staff":   {"a crew, a machine or a lorry", others(taken), fillersToo, taken},
	"load":    {"a lorry", others(lorries), fillersToo, lorries},
	"first":   {"a task or what others provide", others(tasks | givens), fillersToo, tasks | givens},
	"at":      {"a task", others(tasks), fillersToo, tasks},
	"zones":   {"a zone", others(zones), fillersToo, zones},
	"closure": {"a date like Thu 6 May", (*saying).readClosure, fillersToo, 0},
}

// mostListed is how many things may be named at once.
const mostListed = 24

// list reads one thing or several of a kind: "58 59", "slate and flags".
func list(of kind) func(*saying, int, found) []step {
	var read func(s *saying, i int, f found) []step
	read = func(s *saying, i int, f found) []step {
		var out []step
		for _, st := range s.readThing(of, i, f) {
			out = append(out, st)
			if len(st.things) >= mostListed {
				continue
			}
			out = append(out, s.upTo(of, st)...)
			next := st.to
			for slices.Contains([]string{",", "and", "+", "/"}, s.at(next)) {
				next++
			}
			if next == st.to && (figure(s.at(next-1)) < 0 || figure(s.at(next)) < 0) {
				continue // only numbers follow each other without a word between them
			}
			out = append(out, read(s, next, st.found)...)
		}
		return out
	}
	return read
}

// upTo reads the last of several numbers in a row: "58-60", "58 to 60".
func (s *saying) upTo(of kind, st step) []step {
	first, last := figure(s.at(st.to-1)), figure(s.at(st.to+1))
	if !s.are(st.to, "-") && !s.are(st.to, "to") || first < 0 || last <= first || last > first+mostListed {
		return nil
	}
	for n := first + 1; n <= last; n++ {
		t, ok := s.g.numbered(n, of)
		if !ok {
			return nil
		}
		st.found = s.g.unsure(n, st.with(match{thing: t}))
	}
	return []step{{st.found, st.to + 2}}
}

// numberSigns may stand before the number of a task or a lorry.
var numberSigns = []string{"#", "no", "nr", "number", "job", "task", "line", "item", "lorry", "truck", "delivery"}

// longestName is how many words a name may have.
const longestName = 12

// readThing reads the name or the number of one thing.
func (s *saying) readThing(of kind, i int, f found) []step {
	var out []step
	from := i
	for slices.Contains(numberSigns, s.at(i)) || i > from && s.are(i, ".") {
		i++
	}
	text := strings.TrimPrefix(s.at(i), "no")
	if n := figure(text); n >= 0 && !s.measures(i) {
		if t, ok := s.g.numbered(n, of); ok {
			out = append(out, step{s.g.unsure(n, f.with(match{thing: t})), i + 1})
		}
	}
	return append(out, s.readName(of, from, f)...)
}

// readName reads the name of one thing. One that is called exactly so is meant, whatever
// the first words of the name may mean by themselves: "Line the rill and pool".
func (s *saying) readName(of kind, i int, f found) []step {
	var out []step
	for to := i + 1; to <= min(len(s.words), i+longestName); to++ {
		if s.words[to-1].quoted && to > i+1 || s.are(to-1, ":") {
			break
		}
		for _, m := range s.find(of, i, to) {
			if m.exact && len(out) > 0 && out[0].to < to {
				out = nil
			}
			out = append(out, step{f.with(m), to})
		}
		if s.words[i].quoted {
			break
		}
	}
	return out
}

// measures says whether the number at word i is that of a length.
func (s *saying) measures(i int) bool {
	_, _, ok := s.lengthAt(i)
	return ok
}

// with is what is found with one thing more.
func (f found) with(m match) found {
	if !slices.Contains(f.things, m.thing) { // twice is once
		f.things = append(f.things[:len(f.things):len(f.things)], m.thing)
	}
	f.one = f.one || m.one
	if m.doubt != "" {
		f = f.doubting(m.doubt)
	}
	return f
}

// find lists the things that the words from i up to another may mean.
func (s *saying) find(of kind, i, to int) []match {
	key := [3]int{int(of), i, to}
	if known, ok := s.names[key]; ok {
		return known
	}
	// A name doesn't begin or end with words that tell nothing.
	var out []match
	ends := s.at(to - 1)
	if !slices.Contains(small, s.at(i)) && !slices.Contains(small, ends) && len(stemsOf(ends)) > 0 || s.words[i].quoted {
		text := s.text[s.words[i].from:s.words[to-1].to]
		out = s.g.find(strings.Trim(text, `"“”„`), of)
	}
	s.names[key] = out
	return out
}

func (s *saying) readLength(i int, f found) []step {
	l, to, ok := s.lengthAt(i)
	if !ok {
		return nil
	}
	f.length = l
	return []step{{f, to}}
}

// readWork reads a length of work. How long a day of work is isn't said anywhere.
func (s *saying) readWork(i int, f found) []step {
	out := s.readLength(i, f)
	for k := range out {
		if l := out[k].length; l.inDays {
			day := s.g.dayOfWork()
			out[k].length.minutes = calendars.Minutes(int64(l.minutes) * int64(day) / int64(calendars.Day))
			out[k].found = out[k].doubting("how long a day of work is differs: say it in hours")
		}
	}
	return out
}

// dayOfWork is the open time of the site on its fullest weekday.
func (g *Garden) dayOfWork() calendars.Minutes {
	most := calendars.Minutes(0)
	for _, ranges := range g.Plan.Site.Hours.Weekly {
		open := calendars.Minutes(0)
		for _, r := range ranges {
			open += r.To - r.From
		}
		most = max(most, open)
	}
	return most
}

func (s *saying) readCount(i int, f found) []step {
	if s.are(i, "+") {
		i++
	}
	n := whole(s.at(i))
	switch s.at(i) {
	case "no", "nobody", "none":
		n = 0
	}
	if n < 0 {
		return nil
	}
	f.count = n
	return []step{{f, i + 1}}
}

// readMore reads which way a number of people goes.
func (s *saying) readMore(i int, f found) []step {
	for _, c := range [...]struct {
		class string
		fewer bool
	}{{classes["more"], false}, {classes["fewer"], true}} {
		for p := range strings.SplitSeq(c.class, "|") {
			if n := strings.Fields(p); s.are(i, n...) {
				f.fewer = c.fewer
				return []step{{f, i + len(n)}}
			}
		}
	}
	return nil
}

// moments reads a moment.
func moments(t tense) func(*saying, int, found) []step {
	return func(s *saying, i int, f found) []step {
		var out []step
		for _, m := range s.momentsAt(i, t, s.g.opening(f.things)) {
			next := f
			if next.at = &m.Moment; m.now && t == past {
				next.at = nil // it is now unless another moment is said
			}
			if m.doubt != "" {
				next = next.doubting(m.doubt)
			}
			out = append(out, step{next, m.to})
		}
		return out
	}
}

// readStarted reads the moment at which what is finished was started.
func (s *saying) readStarted(i int, f found) []step {
	at := f.at
	out := moments(past)(s, i, f)
	for k := range out {
		out[k].started, out[k].at = out[k].at, at
	}
	return out
}

// readText takes all that follows, unread.
func (s *saying) readText(i int, f found) []step {
	for s.are(i, ":") || s.are(i, ",") || s.are(i, "-") {
		i++
	}
	if i >= len(s.words) {
		return nil
	}
	f.text = strings.TrimSpace(s.text[s.words[i].from:])
	f.free += len(s.words) - i
	return []step{{f, len(s.words)}}
}

// readWhy takes a reason: all that follows. What could be read as something that
// happened too is in doubt.
func (s *saying) readWhy(i int, f found) []step {
	from := i
	for s.are(i, ":") || s.are(i, ",") || s.are(i, "-") {
		i++
	}
	plain := i > from && s.are(from, ":")
	for _, p := range [...][]string{{"because", "of"}, {"because"}, {"due", "to"}, {"as"}} {
		if s.are(i, p...) && !plain {
			i += len(p)
			break
		}
	}
	out := s.readText(i, f)
	for k := range out {
		if s.g.speaksOfTicks(out[k].text) {
			out[k].found = out[k].doubting("the reason reads like something that happened; put that in a line of its own")
		}
	}
	return out
}

// did are the words for work done that don't end in ed.
var did = map[string]string{"dug": "dig", "laid": "lay", "set": "set", "built": "build", "cut": "cut", "swept": "sweep"}

// readDid reads "turf laid", "hawthorns planted": a task by its name and what was done.
func (s *saying) readDid(i int, f found) []step {
	var out []step
	for to := i + 1; to <= min(len(s.words), i+longestName); to++ {
		root, ok := did[s.at(to)]
		if ed, is := strings.CutSuffix(s.at(to), "ed"); is && len(ed) > 2 {
			root, ok = ed, true
		}
		name := s.at(i)
		for k := i + 1; k < to; k++ {
			name += " " + s.at(k)
		}
		if !ok || slices.Contains(small, s.at(i)) || len(stemsOf(name)) == 0 || len(stemsOf(s.at(to-1))) == 0 {
			continue
		}
		for _, r := range [...]string{root, root + "e"} {
			for _, m := range s.g.find(name+" "+r, tasks) {
				out = append(out, step{f.with(m), to + 1})
			}
		}
	}
	return out
}
