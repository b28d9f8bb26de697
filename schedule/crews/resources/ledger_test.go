package resources_test

import (
	"fmt"
	"strings"
	"testing"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule/crews"
	"build.example/turflast/schedule/crews/resources"
	"build.example/turflast/schedule/network"
)

// open is the opening of the ledger's site; moments count hours from it.
const open = calendars.Instant(30_000_000)

func hour(h int) calendars.Instant { return open.Plus(calendars.Minutes(h) * calendars.Hour) }

func hours(from, to int) calendars.Span { return calendars.Span{Start: hour(from), End: hour(to)} }

// use is who takes how many of the one thing that is there, and when.
type use struct{ from, to, amount int }

// ledgerOf writes down uses, node by node, of something of which two are there at
// first, three from the sixth hour on, and none from the tenth.
func ledgerOf(t *testing.T, uses []use) *resources.Ledger {
	t.Helper()
	line := hours(0, 24)
	spec := network.Spec{Line: line, Calendars: []*calendars.Calendar{calendars.New([]calendars.Span{line})}}
	for range uses {
		spec.Nodes = append(spec.Nodes, network.Node{Hold: network.None, Work: 60})
	}
	n, err := network.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	times := network.NewTimes(n)
	for i, u := range uses {
		times.Start[i], times.Finish[i] = hour(u.from), hour(u.to)
	}
	there := calendars.NewProfile([]calendars.Change{{Span: hours(0, 10), By: 2}, {Span: hours(6, 10), By: 1}})
	return resources.NewLedger([]*calendars.Profile{there}, n, times, func(k int) []crews.Need {
		return []crews.Need{{Amount: int32(uses[k].amount)}}
	})
}

// TestShort checks when too little of something is left, and who has it then.
func TestShort(t *testing.T) {
	const self = 0 // the node that asks; what it holds itself is left to it
	for _, c := range []struct {
		name     string
		uses     []use
		amount   int
		from, to int
		want     string
	}{
		{"nobody else", []use{{0, 6, 2}}, 2, 0, 6, "enough"},
		{"more than is there", []use{{0, 6, 2}}, 3, 0, 6, "until 6, nobody"},
		{"enough from the sixth hour on", []use{{0, 8, 3}}, 3, 5, 8, "until 6, nobody"},
		{"none there yet", []use{{0, 6, 1}}, 1, -2, 3, "until 0, nobody"},
		{"gone from the tenth hour on", []use{{0, 6, 1}}, 1, 8, 12, "until 12, nobody"},
		{"one other, and room for both", []use{{9, 9, 0}, {1, 3, 1}}, 1, 0, 6, "enough"},
		{"one other, with all of it", []use{{9, 9, 0}, {1, 3, 2}}, 1, 0, 6, "until 3, node 1"},
		{"the last of two that follow", []use{{9, 9, 0}, {1, 3, 2}, {3, 5, 2}}, 1, 0, 6, "until 5, node 2"},
		{"over before it begins", []use{{9, 9, 0}, {1, 3, 2}}, 1, 3, 6, "enough"},
		{"begins as it ends", []use{{9, 9, 0}, {3, 5, 2}}, 1, 0, 3, "enough"},
		{"beyond its end", []use{{9, 9, 0}, {2, 8, 2}}, 1, 0, 4, "until 4, node 1"},
		{"the one that lets go", []use{{9, 9, 0}, {1, 3, 1}, {2, 5, 1}}, 1, 0, 3, "until 3, node 1"},
		{"both let go: the last to start", []use{{9, 9, 0}, {1, 4, 1}, {2, 4, 1}}, 1, 0, 6, "until 4, node 2"},
		{"both let go and start alike: the first", []use{{9, 9, 0}, {2, 4, 1}, {2, 4, 1}}, 1, 0, 6, "until 4, node 1"},
		{"more comes before they let go", []use{{9, 9, 0}, {1, 8, 1}, {2, 8, 1}}, 1, 0, 8, "until 6, node 2"},
	} {
		end, holder, short := ledgerOf(t, c.uses).Short(crews.Need{Amount: int32(c.amount)}, hours(c.from, c.to), self)
		got := "enough"
		if short {
			got = fmt.Sprintf("until %d, node %d", calendars.Minutes(end-open)/calendars.Hour, holder)
			got = strings.Replace(got, fmt.Sprintf("node %d", network.None), "nobody", 1)
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}
