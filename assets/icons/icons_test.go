package icons

import (
	"encoding/xml"
	"io/fs"
	"strings"
	"testing"
)

// Every icon is well-formed XML on the same square and brings no colour of its own.
func TestIconsAreAlike(t *testing.T) {
	names, err := fs.Glob(Files, "*.svg")
	if err != nil || len(names) < 5 {
		t.Fatalf("%d icons, %v", len(names), err)
	}
	for _, name := range names {
		var svg struct {
			XMLName xml.Name `xml:"http://www.w3.org/2000/svg svg"`
			ViewBox string   `xml:"viewBox,attr"`
			Paths   []struct {
				Fill string `xml:"fill,attr"`
				D    string `xml:"d,attr"`
			} `xml:"path"`
		}
		data := Named(strings.TrimSuffix(name, ".svg"))
		if err := xml.Unmarshal(data, &svg); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if svg.ViewBox != "0 0 24 24" || len(svg.Paths) == 0 {
			t.Errorf("%s has the view %q and %d paths", name, svg.ViewBox, len(svg.Paths))
		}
		for _, p := range svg.Paths {
			if p.Fill != "#000" || p.D == "" {
				t.Errorf("%s: a path filled %q", name, p.Fill)
			}
		}
	}
	if Named("no such") != nil {
		t.Error("an icon that does not exist")
	}
}
