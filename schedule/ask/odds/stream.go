package odds

import "math/rand/v2"

// stream is a source of random numbers for one build.
type stream struct{ pcg rand.PCG }

// begin starts the stream of a build. Neighbouring seeds and builds are mixed
// first, as the generator needs (the mixer is that of Steele, Lea and Flood, 2014).
func (s *stream) begin(seed, build uint64) {
	s.pcg.Seed(mix(seed+mix(build)), mix(build^mix(^seed)))
}

func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// draw returns a number spread evenly over its range.
func (s *stream) draw() uint32 { return uint32(s.pcg.Uint64() >> 32) }

// happens draws whether something with this chance happens.
func (s *stream) happens(chance float64) bool {
	return float64(s.pcg.Uint64()>>11)/(1<<53) < chance
}
