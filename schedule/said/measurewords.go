package said

import (
	"regexp"
	"strconv"
	"strings"

	"build.example/turflast/schedule"
)

// measure is a change that may be bought, and behind it what it costs.
func (a *adder) measure(rest string) []schedule.Change {
	at, behind := -1, 0
	for _, word := range [...]string{" cost ", " costs ", " for ", " at "} {
		if i := strings.LastIndex(strings.ToLower(rest), word); i > at {
			at, behind = i, i+len(word)
		}
	}
	if at < 0 {
		a.ask("say what it costs")
		return nil
	}
	cost, ok := amountOf(rest[behind:])
	if !ok {
		a.ask(schedule.QuoteWord(strings.TrimSpace(rest[behind:])) + " is no amount of money, like 400 or 12.50")
		return nil
	}
	what := strings.TrimRight(strings.TrimSpace(rest[:at]), " ,")
	of, err := a.g.Changes(what)
	if slot, others := a.g.Changes("extra " + what); err != nil && others == nil {
		of, err = slot, nil // "crane thursday 1pm to 5pm"
	}
	if err != nil {
		why := err.Error()
		if d, is := err.(*Doubt); is && len(d.Choices) > 0 {
			for i, choice := range d.Choices {
				d.Choices[i] = "measure " + choice + ", cost " + cost.Plain()
			}
			why = d.Short()
		}
		a.ask(why)
		return nil
	}
	var list []schedule.Change
	for _, one := range of {
		c := change(schedule.ChangeMeasure)
		one.Text = ""
		c.Measure = &schedule.NewMeasure{Of: one, Cost: cost}
		list = append(list, c)
	}
	return list
}

// money is an amount as people write it, with the sign or the letters of a currency or without.
var money = regexp.MustCompile(`^[^\d\s.,]{0,4}\s*(\d{1,9})(?:[.,](\d\d))?\s*[^\d\s.,]{0,8}$`)

// amountOf is an amount of money.
func amountOf(text string) (schedule.Money, bool) {
	found := money.FindStringSubmatch(strings.TrimSpace(text))
	if found == nil {
		switch strings.ToLower(strings.TrimSpace(text)) {
		case "nothing", "free":
			return 0, true
		}
		return 0, false
	}
	whole, _ := strconv.Atoi(found[1])
	part, _ := strconv.Atoi(found[2])
	return schedule.Money(100*whole + part), true
}
