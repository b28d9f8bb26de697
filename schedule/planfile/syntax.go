package planfile

import (
	"fmt"
	"regexp"
	"strconv"

	"gopkg.in/yaml.v3"

	"build.example/turflast/schedule"
)

// parse gives the root of the document, or reports why there is none.
func (r *reader) parse(data []byte) *yaml.Node {
	r.src = scan(data, r.what, r.report)
	if r.src.broken {
		return nil
	}
	var doc yaml.Node
	err := unmarshal(r.src.text, &doc)
	switch {
	case err != nil && r.fatal > 0:
		return nil // the faults of the text come first
	case err != nil:
		r.syntax(err)
		return nil
	case len(doc.Content) == 0 || isEmpty(doc.Content[0]):
		hint := "`turflast new` writes a plan to start from"
		switch r.what {
		case "what-if":
			hint = "`turflast whatif --save` writes one"
		case "price list":
			hint = "write one like late: 120"
		}
		r.fault(schedule.Pos{Line: 1, Column: 1}, hint, "the file holds no %s", r.what)
		return nil
	}
	return doc.Content[0]
}

// unmarshal parses text; a panic of the library is an error like any other.
func unmarshal(text string, doc *yaml.Node) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the YAML library failed: %v", p)
		}
	}()
	return yaml.Unmarshal([]byte(text), doc)
}

var libraryLine = regexp.MustCompile(`^yaml: line (\d+): `)

// syntax reports why the text is no YAML: the first slip that is found in it,
// else the line that the library names, which may be another one.
func (r *reader) syntax(err error) {
	if slip, found := findSlip(r.src.lines); found {
		r.report(slip)
		return
	}
	at := schedule.Pos{Line: 1, Column: 1}
	if m := libraryLine.FindStringSubmatch(err.Error()); m != nil {
		line, _ := strconv.Atoi(m[1])
		at.Line = min(max(line, 1), len(r.src.lines))
	}
	r.fault(at, "look at the quotes, brackets and indentation of the line and of those around it",
		"the text is no YAML near here")
}
