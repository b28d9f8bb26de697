package search

import (
	"fmt"

	"build.example/turflast/schedule/crews"
)

// check returns an error when a capacity or a need is above [crews.MostAmount]. A
// need above what ever exists is no error: its node has no place.
func check(p *crews.Problem) error {
	for r, c := range p.Capacity {
		if c.Max() > crews.MostAmount {
			return fmt.Errorf("search: there are %d of resource %d, more than %d", c.Max(), r, crews.MostAmount)
		}
	}
	for i, modes := range p.Modes {
		for _, m := range modes {
			for _, n := range m.Needs {
				if n.Amount > crews.MostAmount {
					return fmt.Errorf("search: node %d takes %d of resource %d, more than %d",
						i, n.Amount, n.Resource, crews.MostAmount)
				}
			}
		}
	}
	return nil
}
