package builds

import "math/rand/v2"

// Stream is a source of random numbers for one build.
type Stream struct{ pcg rand.PCG }

// Begin starts the stream of a build. Neighbouring seeds and builds are mixed
// first, as the generator needs (the mixer is that of Steele, Lea and Flood, 2014).
func (s *Stream) Begin(seed, build uint64) {
	s.pcg.Seed(mix(seed+mix(build)), mix(build^mix(^seed)))
}

func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// Draw returns a number spread evenly over its range.
func (s *Stream) Draw() uint32 { return uint32(s.pcg.Uint64() >> 32) }

// Happens draws whether something with this chance happens.
func (s *Stream) Happens(chance float64) bool {
	return float64(s.pcg.Uint64()>>11)/(1<<53) < chance
}

// Draws returns two numbers at once, as [Stream.Draw] gives them, one in each half.
func (s *Stream) Draws() uint64 { return s.pcg.Uint64() }
