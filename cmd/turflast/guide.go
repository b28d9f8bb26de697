package main

import (
	"embed"
)

// guides are pages for each user, and one on how figures are computed: files that help
// prints as they are.
//
//go:embed guide/*.md
var guides embed.FS

// guide is a topic of help that prints a page.
func guide(name, short string) topic {
	return topic{name: name, short: short, show: func(p *program, _ []string) error {
		text, err := guides.ReadFile("guide/" + name + ".md")
		if err != nil {
			return err
		}
		_, err = p.stdout.Write(text)
		return err
	}}
}
