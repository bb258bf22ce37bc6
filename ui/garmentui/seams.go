package garmentui

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

const anotherSeam = "another seam"

// noteSeam asks for the stitch, the length and the rows of a seam.
func (p *Page) noteSeam(r planner.GarmentRecord) {
	made := r.Seams
	var names, stitches []string
	for _, s := range made {
		names = append(names, s.Name)
	}
	for _, c := range garment.StitchClasses() {
		stitches = append(stitches, stitchWords(c))
	}
	seam := widgets.NewChoice("Seam", append(names, anotherSeam), nil)
	other := widgets.NewField("Name, if another", "pocket", nil)
	stitch := widgets.NewChoice("Stitch (ISO 4915)", stitches, nil)
	length := widgets.NewField("Length of one row", "", func(text string) (string, error) {
		l, err := measure.ParsePositiveLength(text, p.unit())
		return "= " + p.host.Voice().Length(l), err
	})
	rows := widgets.NewField("Rows of stitching", "1", func(text string) (string, error) {
		if n, err := strconv.Atoi(strings.TrimSpace(text)); err != nil || n < 1 {
			return "", &stash.Error{Kind: stash.Invalid, What: "That is no number of rows", Do: "Type 1, 2 or so"}
		}
		return "", nil
	})
	ratio := widgets.NewField("Thread per length (empty: as published)", "5.5", func(text string) (string, error) {
		_, err := ratioOf(text)
		return "", err
	})
	still := widgets.NewCheck("This seam need not stretch, such as a shoulder over tape", nil)
	out := widgets.NewCheck("It is not sewn: leave it out", nil)
	forget := widgets.NewCheck("Forget what was noted of it", nil)
	fill := func(string) {
		at := seam.SelectedIndex()
		if at < 0 || at >= len(made) {
			return
		}
		s := made[at]
		length.Set("")
		if !s.Drawn && s.Length > 0 {
			length.Set(p.host.Voice().Fine(s.Length))
		}
		rows.Set(strconv.Itoa(s.Rows))
		ratio.Set("")
		if s.Ratio > 0 {
			ratio.Set(say.Ratio(s.Ratio))
		}
		if c, ok := garment.StitchOf(s.Class); ok {
			stitch.SetSelected(stitchWords(c))
		}
		still.SetChecked(s.Still)
		out.SetChecked(s.Out)
	}
	seam.OnChanged = fill
	fill("")
	for word, o := range map[string]fyne.CanvasObject{"form.seam": seam, "form.other": other.Entry, "form.stitch": stitch, "form.length": length.Entry,
		"form.rows": rows.Entry, "form.ratio": ratio.Entry, "form.still": still, "form.out": out, "form.forget": forget} {
		p.host.Names.Set(word, o)
	}
	form := &widgets.Form{Title: "A seam of " + r.Garment.Name, Send: "Note it", Say: say.Error, Width: 680,
		Intro:  "Leave the length empty where the outlines show it.",
		Rows:   [][]fyne.CanvasObject{{seam.Object(), other.Object()}, {stitch.Object(), ratio.Object()}, {length.Object(), rows.Object()}, {still}, {out, forget}},
		Fields: []*widgets.Field{other, ratio, length, rows}}
	form.Done = func() error {
		if forget.Checked {
			return p.forgetSeam(r.Garment, seam.Selected)
		}
		s := garment.Seam{Name: seam.Selected, Still: still.Checked, Out: out.Checked}
		if typed := strings.TrimSpace(other.Text()); typed != "" {
			s.Name = typed
		} else if s.Name == anotherSeam {
			s.Name = ""
		}
		if at := stitch.SelectedIndex(); at >= 0 {
			s.Class = garment.StitchClasses()[at].Class
		}
		if text := strings.TrimSpace(length.Text()); text != "" {
			s.Length, _ = measure.ParsePositiveLength(text, p.unit()) // the field has read it
		}
		s.Rows, _ = strconv.Atoi(strings.TrimSpace(rows.Text()))
		s.Ratio, _ = ratioOf(ratio.Text())
		if _, err := r.Garment.WithSeam(s); err != nil {
			return err
		}
		p.host.Act("seam", func(ctx context.Context) (string, error) {
			return "Noted: " + s.Name + ".", p.host.Studio.KeepSeam(ctx, r.Garment.ID, s)
		}, func(error) { p.Shown() })
		return nil
	}
	p.open(form)
}

// forgetSeam lets a seam be as the outlines show it again.
func (p *Page) forgetSeam(g garment.Garment, name string) error {
	if _, err := g.WithoutSeam(name); err != nil {
		return err
	}
	p.host.Act("seam", func(ctx context.Context) (string, error) {
		return "Forgot what was noted of " + name + ". Ctrl+Z brings it back.", p.host.Studio.DropSeam(ctx, g.ID, name)
	}, func(error) { p.Shown() })
	return nil
}

func stitchWords(c garment.StitchClass) string { return fmt.Sprintf("%s (%d)", c.Name, c.Class) }

// ratioOf reads thread per length in hundredths; empty is none.
func ratioOf(text string) (int, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, nil
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil || !(v > 0 && v <= 100) {
		return 0, &stash.Error{Kind: stash.Invalid, What: "That is no ratio", Do: "Type how many times as long as the seam its thread is, such as 5.5"}
	}
	return int(math.Round(v * 100)), nil
}
