package said_test

import "testing"

// Of the phrases held out while the rules were written at least 85 in 100 are right, and
// none is taken for something else without asking.
func TestHeldOut(t *testing.T) {
	g := garden(t)
	right, guessed, all := 0, 0, phrases(t, "heldout.txt")
	for _, p := range all {
		switch why, guess := p.wrong(g); {
		case why == "":
			right++
		case guess:
			guessed++
		}
	}
	t.Logf("%d of %d phrases are right, %d guessed", right, len(all), guessed)
	if 100*right < 85*len(all) {
		t.Errorf("%d of %d phrases are right", right, len(all))
	}
	if guessed > 0 {
		t.Errorf("%d phrases are taken for something else", guessed)
	}
}
