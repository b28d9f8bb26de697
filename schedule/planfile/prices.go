package planfile

import (
	"cmp"
	"io"
	"slices"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
	"build.example/turflast/schedule/planfile/keys"
)

// ReadPrices reads a price list for a plan: the keys format, name, note, running and late,
// what an hour costs, and tasks, each with its shortest working time, the price of
// each hour less, and why. It is as strict as [Read]; the list is nil when a problem
// is fatal.
func ReadPrices(r io.Reader, p *schedule.Plan) (*schedule.Prices, schedule.Problems) {
	data, problems := readAll(r, "one file holds one price list")
	if problems != nil {
		return nil, problems
	}
	rd := newReader("price list")
	var ids []string
	for i := range p.Tasks {
		ids = append(ids, p.Tasks[i].ID)
	}
	rd.tasks = fixedNames("task", ids)
	list := &schedule.Prices{}
	if root := rd.parse(data); root != nil && rd.readable(root, "price list") {
		rd.sweep(root, 1)
		rd.readPrices(root, list)
	}
	if problems = rd.result(); problems.Fatal() {
		return nil, problems
	}
	return list, problems
}

func (r *reader) readPrices(root *yaml.Node, list *schedule.Prices) {
	top, ok := r.item(root, "the price list", keys.Prices)
	if !ok {
		return
	}
	top.format()
	if top.has("name") {
		list.Name = r.words(top.get("name"), maxName, label{"name", ""})
	}
	if top.has("note") {
		list.Note = r.words(top.get("note"), maxText, label{"note", ""})
	}
	list.Running, list.Late = max(top.money("running"), 0), max(top.money("late"), 0)
	for _, e := range r.entries(top.get("tasks"), maxTasks, label{"tasks", ""}) {
		if p, ok := r.readTaskPrice(e[0], e[1]); ok {
			list.Tasks = append(list.Tasks, p)
		}
	}
	slices.SortFunc(list.Tasks, func(a, b schedule.TaskPrice) int { return cmp.Compare(a.Task, b.Task) })
	if !top.has("running") && !top.has("late") && !top.has("tasks") && !top.unsure {
		r.fault(top.at, "give at least one of running, late and tasks", "the price list has no prices")
	}
}

func (r *reader) readTaskPrice(key, value *yaml.Node) (schedule.TaskPrice, bool) {
	out := schedule.TaskPrice{Pos: posOf(key)}
	t, known := r.findText(r.tasks, key.Value, posOf(key), label{"tasks", ""})
	out.Task = schedule.TaskID(t)
	it, ok := r.item(value, "task "+key.Value, keys.TaskPrice)
	if !ok {
		return out, false
	}
	it.required()
	if m, ok := it.work("shortest"); ok {
		if out.Shortest = m; m == 0 {
			r.zeroLength(it.get("shortest"), it.of("shortest"))
		}
	}
	out.Hour = max(it.money("hour"), 0)
	if it.has("why") {
		out.Why = it.words("why", maxText)
	}
	return out, known
}
