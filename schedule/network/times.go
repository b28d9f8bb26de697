package network

import "build.example/turflast/calendars"

// Times are the dates of a network's nodes, in the order of Network.Nodes. An
// early date is Never when the node has no place. A late date is Never when
// nothing limits the node, and Past when no opening is early enough.
type Times struct {
	Start, Finish         []calendars.Instant
	Done                  []calendars.Instant // finish, cure and hold point
	LateStart, LateFinish []calendars.Instant
}

// NewTimes makes room for the dates of n.
func NewTimes(n *Network) *Times {
	k := len(n.Nodes)
	all := make([]calendars.Instant, 5*k)
	return &Times{all[:k:k], all[k : 2*k : 2*k], all[2*k : 3*k : 3*k], all[3*k : 4*k : 4*k], all[4*k:]}
}
