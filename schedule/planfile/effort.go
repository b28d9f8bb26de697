package planfile

import (
	"fmt"
	"strings"

	"build.example/turflast/calendars"
	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

const perPersonHour = "/person-hour"

// readEffort reads how much work a task is: exactly one of takes,
// person_hours, and amount with rate. ok is false when that is not known.
func (r *reader) readEffort(it *item, t *schedule.Task) (ok bool) {
	n := 0
	for _, key := range [...]string{"takes", "person_hours", "amount"} {
		if it.has(key) {
			n++
		}
	}
	switch {
	case n == 0 && !it.has("rate"):
		r.fault(it.at, "give takes, person_hours, or amount with rate", "%s does not say how long it takes", it.name)
		return false
	case n > 1:
		r.fault(it.at, "keep one of takes, person_hours, and amount with rate",
			"%s says how long it takes in two ways", it.name)
		return false
	case it.has("takes"):
		it.refuse("a rate goes with an amount", "rate")
		t.Effort.Takes, ok = it.work("takes")
		return ok && r.notTooLong(it, "takes", t.Effort.Takes)
	case it.has("person_hours"):
		it.refuse("a rate goes with an amount", "rate")
		ok = r.readPersonHours(it, &t.Effort)
	default:
		ok = r.readAmount(it, &t.Effort)
	}
	return ok && r.checkShared(it, t)
}

// checkShared checks work that is divided by heads against the crew that does
// it.
func (r *reader) checkShared(it *item, t *schedule.Task) bool {
	key := "person_hours"
	if it.has("amount") {
		key = "amount"
	}
	if !it.has("crew") {
		r.fault(posOf(it.get(key)), "name the crew, or give takes", "%s of %s has nobody to share it", key, it.name)
		return false
	}
	least := 0
	for _, c := range t.Crew {
		least += c.Least
	}
	e := t.Effort
	if (e.Num+e.Den-1)/e.Den/int64(max(least, 1)) > int64(maxWorking) {
		r.fault(posOf(it.get(key)), "split the task", "%s works longer than 26 weeks", it.name)
		return false
	}
	return true
}

func (r *reader) notTooLong(it *item, key string, m calendars.Minutes) bool {
	if m > maxWorking {
		r.fault(posOf(it.get(key)), "split the task", "%s works longer than 26 weeks", it.name)
		return false
	}
	return true
}

func (r *reader) readPersonHours(it *item, e *schedule.Effort) bool {
	n := it.get("person_hours")
	s, ok := r.plain(n, it.of("person_hours"))
	if !ok {
		return false
	}
	d, err := parseDecimal(s, maxUnits)
	if err == nil && d.num == 0 {
		err = &calendars.TextError{Text: s, Problem: "is no work", Hint: "write takes: 0m for a task that takes no time"}
	}
	if err != nil {
		r.textFault(posOf(n), it.of("person_hours"), err)
		return false
	}
	e.Num, e.Den = reduced(d.num*60, d.den)
	return true
}

// readAmount reads an amount, such as "12 m2", and its rate, such as
// "1.5 m2/person-hour".
func (r *reader) readAmount(it *item, e *schedule.Effort) bool {
	if !it.has("rate") || !it.has("amount") {
		it.require("amount", "rate")
		return false
	}
	amount, unit, ok := r.quantity(it, "amount", "like 12 m2", "")
	rate, of, rated := r.quantity(it, "rate", "like 1.5 m2/person-hour", perPersonHour)
	if !ok || !rated {
		return false
	}
	if unit != of {
		r.fault(posOf(it.get("rate")), fmt.Sprintf("give the rate in %s%s", unit, perPersonHour),
			"rate of %s is in %s, the amount in %s", it.name, quote(of), quote(unit))
		return false
	}
	e.Num, e.Den = reduced(amount.num*rate.den*60, amount.den*rate.num)
	e.Amount, e.Rate, e.Unit = it.get("amount").Value, it.get("rate").Value, unit
	return true
}

// quantity reads a number, a space and a unit that stands before the suffix.
func (r *reader) quantity(it *item, key, example, suffix string) (d decimal, unit string, ok bool) {
	n := it.get(key)
	s, ok := r.plain(n, it.of(key))
	if !ok {
		return d, "", false
	}
	number, unit, spaced := strings.Cut(s, " ")
	unit, suffixed := strings.CutSuffix(unit, suffix)
	d, err := parseDecimal(number, maxUnits)
	switch {
	case !spaced || !suffixed || !isWord(unit):
		r.fault(posOf(n), "write it "+example, "%s: %s is no %s", it.of(key), quote(s), key)
		return d, "", false
	case err == nil && d.num == 0:
		err = &calendars.TextError{Text: number, Problem: "is nothing", Hint: "write it " + example}
	}
	if err != nil {
		r.textFault(posOf(n), it.of(key), err)
		return d, "", false
	}
	return d, unit, true
}

// reduced is a fraction in lowest terms.
func reduced(num, den int64) (int64, int64) {
	a, b := num, den
	for b != 0 {
		a, b = b, a%b
	}
	return num / a, den / a
}

// readSpread reads the best and worst working time around the likeliest.
func (r *reader) readSpread(owner *item, t *schedule.Task, known bool) {
	it, ok := r.item(owner.get("spread"), "spread of "+owner.name, keys.Spread)
	if !ok {
		return
	}
	it.required()
	best, hasBest := it.work("best")
	worst, hasWorst := it.work("worst")
	t.Spread = &schedule.Spread{Best: best, Worst: worst}
	if !known {
		return
	}
	heads := 0
	for _, c := range t.Crew {
		heads += c.Most
	}
	likely := t.Effort.Time(heads)
	says := calendars.FormatWait(likely)
	if hasBest && best > likely {
		r.fault(posOf(it.get("best")), "best is at most the likeliest working time",
			"%s: %q is longer than %s", it.of("best"), it.get("best").Value, says)
	}
	if hasWorst && worst < likely {
		r.fault(posOf(it.get("worst")), "worst is at least the likeliest working time",
			"%s: %q is shorter than %s", it.of("worst"), it.get("worst").Value, says)
	}
	if hasWorst {
		r.notTooLong(&it, "worst", worst)
	}
}
