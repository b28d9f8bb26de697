package progress

import (
	"slices"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/site/sitelog"
)

// team is who is at a task from a moment on.
type team struct {
	from  calendars.Instant
	crew  []schedule.CrewNeed
	heads []int
}

// teams lists who has been at a task, in order: as planned, then as the log says. The copy
// of the plan has the last of them.
func (b *build) teams(id schedule.TaskID, said *sitelog.Task) []team {
	t := &b.p.Tasks[id]
	out := []team{{calendars.Past, t.Crew, b.heads(id)}}
	for _, x := range said.Teams {
		crew := b.p.FindCrew(x.Crew)
		if crew == schedule.None {
			continue // it is told as unknown
		}
		before := &out[len(out)-1]
		next := team{from: x.From}
		k := slices.IndexFunc(before.crew, func(n schedule.CrewNeed) bool { return n.Crew == crew })
		if k < 0 { // another crew takes the place of all
			next.heads = []int{b.several(crew, x.People, sum(before.heads))}
			next.crew = []schedule.CrewNeed{{Crew: crew}}
		} else {
			next.crew, next.heads = slices.Clone(before.crew), slices.Clone(before.heads)
			next.heads[k] = b.several(crew, x.People, next.heads[k])
		}
		for i, n := range next.heads {
			next.crew[i].Least, next.crew[i].Most = n, n
		}
		out = append(out, next)
	}
	t.Crew = out[len(out)-1].crew
	return out
}

func sum(heads []int) (n int) {
	for _, h := range heads {
		n += h
	}
	return n
}

// several is how many of a crew are at work: as said, or as many as were to be, but no more
// than there are.
func (b *build) several(crew schedule.CrewID, said, planned int) int {
	if said != 0 {
		return said
	}
	most := b.p.Crews[crew].People
	for _, on := range b.p.Crews[crew].PeopleOn {
		most = max(most, on.People)
	}
	return max(min(planned, most), 1)
}

// byTeams sets when a task was worked on, by each of its teams in turn.
func (b *build) byTeams(id schedule.TaskID, teams []team, within calendars.Span, pauses []calendars.Span) {
	was := &b.p.Progress.Tasks[id]
	for i := range teams {
		in := calendars.Span{Start: max(within.Start, teams[i].from), End: within.End}
		if i+1 < len(teams) {
			in.End = min(in.End, teams[i+1].from)
		}
		if len(teams) > 1 {
			was.Teams = append(was.Teams, schedule.Team{Crew: teams[i].crew, Heads: teams[i].heads, Over: in})
		}
		if in.Start >= in.End {
			continue
		}
		t := b.p.Tasks[id]
		t.Crew = teams[i].crew
		full, few := b.worked(&t, teams[i].heads, in, pauses)
		was.Worked = append(append(was.Worked, full...), few...)
	}
	slices.SortFunc(was.Worked, func(x, y calendars.Span) int { return int(x.Start - y.Start) })
}
