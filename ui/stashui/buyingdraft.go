package stashui

import (
	"encoding/json"

	"tallycloth/ui/say"
)

// typedLine is a line of the list as a draft keeps it.
type typedLine struct {
	Known, Made, Colour string
	Texts               []string
	Per                 int
	Trued, Washed       bool
}

func typedOf(l boughtLine) typedLine {
	return typedLine{l.known, say.Construction(l.Fabric.Construction), l.Fabric.ColourName, l.texts, l.per, l.Trued, l.Washed}
}

// Typed are the lines in the list, to be kept when the form is not sent.
func (b *buying) Typed() string {
	var out []typedLine
	for _, l := range b.lines {
		out = append(out, typedOf(l))
	}
	if len(out) == 0 {
		return ""
	}
	data, err := json.Marshal(out)
	if err != nil { // texts alone cannot fail
		return ""
	}
	return string(data)
}

// Retype puts lines into the list again, one by one as they were typed.
func (b *buying) Retype(text string) {
	b.lines = nil
	b.clear()
	b.relist()
	var in []typedLine
	if text == "" || json.Unmarshal([]byte(text), &in) != nil {
		return
	}
	for _, l := range in {
		if len(l.Texts) != len(b.lineTexts()) {
			continue
		}
		b.fillLine(l)
		b.addLine()
	}
	b.clear()
	b.trued.SetChecked(false)
	b.washed.SetChecked(false)
	b.per.SetSelectedIndex(0)
}

// fillLine puts a line into the fields.
func (b *buying) fillLine(l typedLine) {
	b.fabric.known.SetSelected(l.Known)
	for k, f := range b.lineTexts() {
		f.Set(l.Texts[k])
	}
	if b.fabric.known.Selected == newFabric {
		b.fabric.make_.SetSelected(l.Made)
		if l.Colour != "" {
			b.fabric.colour.SetSelected(l.Colour)
		}
	}
	b.per.SetSelectedIndex(l.Per)
	b.trued.SetChecked(l.Trued)
	b.washed.SetChecked(l.Washed)
}
