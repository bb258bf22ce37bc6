package bindingui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// The ways a part of an edge runs.
const (
	straight = "straight"
	inside   = "inside curve"
	outside  = "outside curve"
	free     = "strap or tie"
)

// partTable is the small table of an edge's parts, one line of fields each.
type partTable struct {
	host    *page.Host
	changed func()
	rows    []*partRow
	lines   *fyne.Container
	tools   *fyne.Container // beneath them
	object  fyne.CanvasObject
}

// partRow is the fields of one part.
type partRow struct {
	name, mark           *widgets.Entry
	length, turns, share *widgets.Field
	runs                 *widgets.Choice
	object               fyne.CanvasObject
}

func newPartTable(h *page.Host, changed func()) *partTable {
	t := &partTable{host: h, changed: changed, lines: container.NewVBox()}
	add := widgets.NewButton("Add a part", func() { t.add(binding.Segment{}); t.focus() })
	h.Names.Set("binding.part.add", add)
	t.tools = container.NewHBox(add)
	t.object = container.NewVBox(t.lines, t.tools)
	t.add(binding.Segment{Name: "neck"})
	return t
}

// partLayout gives the fields of a line their shares of the width; at large text sizes
// they take two lines.
type partLayout struct{}

// partShares are the fields' shares of the width in one line, and in two.
var partShares = [2][]float32{{0.195, 0.125, 0.25, 0.085, 0.125, 0.22}, {0.34, 0.28, 0.38, 0.3, 0.3, 0.4}}

const partGap, partButton = 6, 30

// leastLine is how wide the fields of a line must be for names of parts and marks to be read.
const leastLine = 556

// large says whether the text is so large that a line has no room for all fields.
func (partLayout) large() bool { return theme.TextSize() > 13.5 }

// Layout places the fields, and the button at the end.
func (l partLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	shares := partShares[0]
	if l.large() {
		shares = partShares[1]
	}
	x, y := float32(0), float32(0)
	button := widgets.Scaled(partButton)
	wide := s.Width - button - partGap*float32(len(shares))
	for i, c := range o {
		h := c.MinSize().Height
		if l.large() && i == len(shares)/2 {
			x, y = 0, h
		}
		if i == len(shares) {
			place(c, s.Width-button, y+theme.CaptionTextSize()+5, button, c.MinSize().Height)
			continue
		}
		place(c, x, y, wide*shares[i], h)
		x += wide*shares[i] + partGap
	}
}

func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// MinSize is the height of a field, or of two.
func (l partLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, c := range o {
		h = max(h, c.MinSize().Height)
	}
	if l.large() {
		h *= 2
	}
	return fyne.NewSize(leastLine, h)
}

func (t *partTable) add(s binding.Segment) *partRow {
	r := &partRow{}
	r.name, r.mark = widgets.NewEntry("name"), widgets.NewEntry("none")
	r.name.SetText(s.Name)
	r.mark.SetText(s.Mark)
	r.name.OnChanged = func(string) { t.changed() }
	r.mark.OnChanged = func(string) { t.changed() }
	r.length = widgets.NewField("Length", "", t.readLength)
	r.turns = widgets.NewField("Turns", "90", readDegrees)
	r.share = widgets.NewField("% of it", "auto", readShare)
	r.runs = widgets.NewChoice("Runs", []string{straight, inside, outside, free}, func(string) { r.bend(); t.changed() })
	for _, f := range []*widgets.Field{r.length, r.turns, r.share} {
		f.Changed = t.changed
	}
	r.fill(t.host.Voice(), s)
	remove := widgets.NewButton("×", func() { t.remove(r) })
	r.object = container.New(partLayout{}, labelled("Part", r.name), r.length.Object(), r.runs.Object(), r.turns.Object(),
		r.share.Object(), labelled("Mark after it", r.mark), remove)
	t.rows = append(t.rows, r)
	t.lines.Add(r.object)
	n := strconv.Itoa(len(t.rows))
	t.host.Names.Set("binding.part."+n+".name", r.name)
	t.host.Names.Set("binding.part."+n+".length", r.length.Entry)
	t.host.Names.Set("binding.part."+n+".runs", r.runs)
	t.host.Names.Set("binding.part."+n+".turns", r.turns.Entry)
	return r
}

// labelled puts a caption over a plain entry, as a field has one.
func labelled(name string, e *widgets.Entry) fyne.CanvasObject {
	return container.NewVBox(widgets.Caption(name), e)
}

func (t *partTable) remove(r *partRow) {
	if len(t.rows) == 1 {
		return
	}
	for i, q := range t.rows {
		if q == r {
			t.rows = append(t.rows[:i], t.rows[i+1:]...)
			t.lines.Remove(r.object)
			break
		}
	}
	t.changed()
}

// set replaces the lines by those of an edge.
func (t *partTable) set(segments []binding.Segment) {
	t.rows = nil
	t.lines.RemoveAll()
	for _, s := range segments {
		t.add(s)
	}
}

func (t *partTable) focus() { t.host.Focus(t.rows[len(t.rows)-1].length.Entry) }

// fill puts a part of an edge into the fields.
func (r *partRow) fill(v say.Voice, s binding.Segment) {
	if s.Length > 0 {
		r.length.Set(v.Fine(s.Length))
	}
	changed := r.runs.OnChanged
	r.runs.OnChanged = nil
	switch {
	case s.Free:
		r.runs.SetSelected(free)
	case math.Abs(s.Turning) < 0.01:
		r.runs.SetSelected(straight)
	case s.Turning > 0:
		r.runs.SetSelected(inside)
	default:
		r.runs.SetSelected(outside)
	}
	r.runs.OnChanged = changed
	if d := math.Abs(s.Turning) * 180 / math.Pi; d >= 0.5 {
		r.turns.Set(fmt.Sprintf("%.0f", d))
	}
	if s.Ratio > 0 {
		r.share.Set(measure.FormatPercent(measure.PercentOf(s.Ratio)))
	}
	r.bend()
}

// bend lets turns be typed where the part is curved.
func (r *partRow) bend() {
	if r.runs.Selected == inside || r.runs.Selected == outside {
		r.turns.Entry.Enable()
		return
	}
	r.turns.Entry.Disable()
}

// names are the names of the sewn parts, those without one as they are called.
func (t *partTable) names() []string {
	var out []string
	for i, r := range t.rows {
		if r.runs.Selected != free {
			out = append(out, r.called(i))
		}
	}
	return out
}

// called is the part's name, or what it is called without one.
func (r *partRow) called(i int) string {
	if name := strings.TrimSpace(r.name.Text); name != "" {
		return name
	}
	return "part " + strconv.Itoa(i+1)
}

// read returns the edge's parts as they stand; what the fields do not show is kept from
// the parts of that name in the pattern. False while a field cannot be read.
func (t *partTable) read(of []binding.Segment) (out []binding.Segment, ok bool) {
	ok = true
	for i, r := range t.rows {
		if strings.TrimSpace(r.length.Text()) == "" && len(t.rows) == 1 {
			return nil, false
		}
		s := binding.Segment{}
		if i < len(of) && of[i].Name == r.name.Text {
			s = of[i]
		}
		s.Name, s.Mark = r.called(i), strings.TrimSpace(r.mark.Text)
		if !r.length.Valid() || !r.turns.Valid() || !r.share.Valid() {
			ok = false
			continue
		}
		r.into(t.unit(), t.host.Voice(), &s)
		ok = ok && s.Length > 0
		out = append(out, s)
	}
	return out, ok
}

// into reads the fields into s. A length or turn that was not touched keeps its exact
// value, which the field shows rounded.
func (r *partRow) into(bare measure.Unit, v say.Voice, s *binding.Segment) {
	if s.Length == 0 || v.Fine(s.Length) != r.length.Text() {
		s.Length, _ = measure.ParsePositiveLength(r.length.Text(), bare)
	}
	s.Free = r.runs.Selected == free
	turning := 0.0
	if r.runs.Selected == inside || r.runs.Selected == outside {
		turning, _ = degrees(r.turns.Text())
		turning *= math.Pi / 180
	}
	if r.runs.Selected == outside {
		turning = -turning
	}
	if math.Abs(turning-s.Turning) > 0.01 {
		s.Turning = turning
	}
	s.Ratio = 0
	if p, err := measure.ParsePercent(r.share.Text()); err == nil {
		s.Ratio = p.Fraction()
	}
}

// ratios shows beneath each share what it came to.
func (t *partTable) ratios(s binding.Strip) {
	if len(s.Parts) != len(t.rows) {
		return
	}
	for i, p := range s.Parts {
		text := measure.FormatPercent(measure.PercentOf(math.Round(p.Ratio*1000) / 1000))
		if e := t.rows[i].share.Entry; e.PlaceHolder != text {
			e.SetPlaceHolder(text)
		}
	}
}

func (t *partTable) unit() measure.Unit {
	if t.host.Settings().Units == measure.Imperial {
		return measure.Inch
	}
	return measure.Centimetre
}

func (t *partTable) readLength(text string) (string, error) {
	l, err := measure.ParsePositiveLength(text, t.unit())
	if err != nil {
		return "", err
	}
	return t.host.Voice().Fine(l), nil
}

// degrees reads a turn: "90", "90°".
func degrees(text string) (float64, error) {
	d, err := strconv.ParseFloat(strings.TrimSpace(strings.ReplaceAll(strings.TrimSuffix(strings.TrimSpace(text), "°"), ",", ".")), 64)
	if err != nil || math.IsNaN(d) || d < 0 || d > 720 {
		return 0, fmt.Errorf("type degrees, such as 90")
	}
	return d, nil
}

func readDegrees(text string) (string, error) {
	d, err := degrees(text)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%.4g°", d), nil
}

func readShare(text string) (string, error) {
	p, err := measure.ParsePercent(text)
	if err != nil {
		return "", err
	}
	return measure.FormatPercent(p), nil
}
