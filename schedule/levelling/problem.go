package levelling

import (
	"errors"
	"fmt"

	"turflast/calendars"
	"turflast/schedule/network"
)

// Need is an amount of one resource that a node holds while it is worked on,
// or, when it Stays, from its start to its finish, pauses included.
type Need struct {
	Resource int32
	Amount   int32
	Stays    bool
}

// Problem is a network whose nodes share resources. Needs holds for each place
// in Net.Nodes what the node takes; Capacity holds for each resource the count
// that is there over time.
type Problem struct {
	Net      *network.Network
	Needs    [][]Need
	Capacity []*calendars.Profile
}

// MostAmount is the largest capacity and need.
const MostAmount = 1<<15 - 1

// ErrWithin is the fault of a network with longest waits, which the search
// doesn't take.
var ErrWithin = errors.New("levelling: the network has longest waits")

// check says what the search can't take.
func (p *Problem) check() error {
	if len(p.Net.Withins) > 0 {
		return ErrWithin
	}
	for i, needs := range p.Needs {
		for _, n := range needs {
			if most := p.Capacity[n.Resource].Max(); int(n.Amount) > most || most > MostAmount {
				return fmt.Errorf("levelling: node %d needs %d of resource %d, which has at most %d", i, n.Amount, n.Resource, most)
			}
		}
	}
	return nil
}
