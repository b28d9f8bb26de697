package said_test

import "testing"

// Of the phrases held out while the rules were written at least 85 in 100 are right, and
// none is taken for something else without asking; reported apart for each table.
func TestHeldOut(t *testing.T) {
	g := garden(t)
	for _, table := range []string{"heldout.txt", "heldout-site.txt", "heldout-plan.txt"} {
		right, guessed, all := 0, 0, phrases(t, table)
		for _, p := range all {
			switch why, guess := p.wrong(g); {
			case why == "":
				right++
			case guess:
				t.Logf("guessed: %s: %s", p.said, why)
				guessed++
			default:
				t.Logf("%s: %s", p.said, why)
			}
		}
		t.Logf("%s: %d of %d phrases are right, %d guessed", table, right, len(all), guessed)
		if 100*right < 85*len(all) {
			t.Errorf("%s: %d of %d phrases are right", table, right, len(all))
		}
		if guessed > 0 {
			t.Errorf("%s: %d phrases are taken for something else", table, guessed)
		}
	}
}
