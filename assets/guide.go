package assets

import (
	"embed"
	"io/fs"
	"strings"
)

//go:embed guide
var guide embed.FS

// GuidePage is a page of the guide, in Markdown; its first line is its title.
type GuidePage struct{ Title, Text string }

// Guide is the guide, page by page.
func Guide() []GuidePage {
	names, err := fs.Glob(guide, "guide/*.md")
	if err != nil {
		panic(err) // the pattern is a good one
	}
	var out []GuidePage
	for _, n := range names {
		b, err := guide.ReadFile(n)
		if err != nil {
			panic(err) // it was just listed
		}
		title, text, _ := strings.Cut(string(b), "\n")
		out = append(out, GuidePage{strings.TrimPrefix(title, "# "), strings.TrimSpace(text)})
	}
	return out
}

// GuidePicture is a picture of the guide as PNG, named as its pages do; nil when there is none.
func GuidePicture(name string) []byte {
	b, err := guide.ReadFile("guide/" + name)
	if err != nil {
		return nil
	}
	return b
}
