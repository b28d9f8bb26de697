package plans

// What follows is drawn after all else that moves dates, so that the rest of a plan
// doesn't depend on it.

// aged lets living stock be old already when it comes.
func (m *maker) aged() {
	for i := range m.p.Deliveries {
		if d := &m.p.Deliveries[i]; d.Keep > 0 && m.chance(30) {
			d.Aged = m.minutes(0, min(d.Keep-30, 10*60))
		}
	}
}

// aged is in whole half hours.
func (m tiny) aged() {
	for i := range m.p.Deliveries {
		if d := &m.p.Deliveries[i]; d.Keep > 0 && m.chance(40) {
			d.Aged = m.half(30, 90)
		}
	}
}
