package stashui

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"tallycloth/planner"
	"tallycloth/planner/garment"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Stitching shows the stitches that worked on a fabric or a garment, with the photos of
// their scraps and what speaks against them, and changes them.
type Stitching struct {
	Host  *page.Host
	Of    stash.PhotoOf
	ID    stash.ID
	Name  string
	Notes []stash.StitchNote
	// Fabrics are those that the notes may be for; For is the place there of each note's, −1
	// for none.
	Fabrics []stash.Fabric
	For     []int
	// Focus is where the focus goes after something was closed, Shown reads again what is in sight.
	Focus, Shown func()
}

// stitchesOf shows the stitches of a fabric.
func (p *Page) stitchesOf(f stash.Fabric, photos []seenPhoto) fyne.CanvasObject {
	s := Stitching{Host: p.host, Of: stash.OfFabric, ID: f.ID, Name: f.Name, Notes: f.Stitches, Fabrics: []stash.Fabric{f}, For: make([]int, len(f.Stitches)), Focus: p.Focus, Shown: p.Shown}
	return s.section(photos)
}

// GarmentStitching shows the stitches of a garment; fabrics are all there are, cloths what
// is reserved for it.
func GarmentStitching(h *page.Host, g garment.Garment, fabrics map[stash.ID]stash.Fabric, kept []stash.ID, focus, shown func()) Stitching {
	s := Stitching{Host: h, Of: stash.OfGarment, ID: g.ID, Name: g.Name, Focus: focus, Shown: shown}
	at := map[stash.ID]int{}
	add := func(id stash.ID) int {
		i, there := at[id]
		f, known := fabrics[id]
		switch {
		case there:
			return i
		case !known:
			return -1
		}
		at[id] = len(s.Fabrics)
		s.Fabrics = append(s.Fabrics, f)
		return at[id]
	}
	for _, id := range kept {
		add(id)
	}
	for _, n := range g.Stitches {
		s.Notes = append(s.Notes, n.StitchNote)
		s.For = append(s.For, add(n.FabricID))
	}
	return s
}

// Object shows them, the photos as soon as they are read.
func (s Stitching) Object() fyne.CanvasObject {
	return withPhotos(s.Host, "stitches.photos", s.ID, s.section)
}

// section is the heading, each note with its photos, and the button for another.
func (s Stitching) section(photos []seenPhoto) fyne.CanvasObject {
	body := container.NewVBox(widgets.SubHeading("Stitches that worked"))
	if len(s.Notes) == 0 {
		for _, f := range s.Fabrics {
			if needle := stash.NeedleFor(f); needle != "" {
				body.Add(widgets.Remark("", "None noted yet. For "+f.Name+" take "+needle+".", widgets.Quiet))
			}
		}
	}
	for i, n := range s.Notes {
		s.addNote(body, i, n, photos)
	}
	add := widgets.NewButton("Note a stitch", func() { s.edit(0) })
	s.Host.Names.Set("stitch.add", add)
	body.Add(container.NewHBox(add))
	return body
}

func (s Stitching) addNote(body *fyne.Container, i int, n stash.StitchNote, photos []seenPhoto) {
	text := say.Stitch(n)
	if s.Of == stash.OfGarment && len(s.Fabrics) > 1 && s.For[i] >= 0 {
		text = s.Fabrics[s.For[i]].Name + ". " + text
	}
	change := widgets.NewButton("Change", func() { s.edit(i + 1) })
	remove := widgets.NewButton("Remove", func() { s.drop(i + 1) })
	change.Importance, remove.Importance = widget.LowImportance, widget.LowImportance
	s.Host.Names.Set(fmt.Sprintf("stitch.change.%d", i+1), change)
	s.Host.Names.Set(fmt.Sprintf("stitch.remove.%d", i+1), remove)
	row := container.NewHBox()
	for _, ph := range photos {
		if ph.Kind == stash.Scrap && ph.Stitch == i+1 {
			t := widgets.NewThumb(ph.thumb, fyne.NewSize(72, 54), "test scrap", func() { showPhoto(s.Host, ph, s.Focus, s.Shown) })
			s.Host.Names.Set(fmt.Sprintf("stitch.scrap.%d", i+1), t)
			row.Add(t)
		}
	}
	row.Add(container.NewVBox(container.NewHBox(change, remove)))
	body.Add(widgets.Remark("· ", text, widgets.Plain))
	for _, d := range s.doubts(i, n) {
		body.Add(widgets.Remark("! ", d, widgets.Careful))
	}
	body.Add(row)
}

// doubts are what speaks against a note, on the fabric in that place.
func (s Stitching) doubts(i int, n stash.StitchNote) []string {
	if s.For[i] < 0 {
		return nil
	}
	return n.Doubts(s.Fabrics[s.For[i]])
}

func (s Stitching) drop(at int) {
	s.Host.Act("remove stitch", func(ctx context.Context) (string, error) {
		return "Removed the stitch note. Ctrl+Z brings it back.", s.Host.Studio.DropStitch(ctx, s.Of, s.ID, at)
	}, func(error) { s.Shown() })
}

// stitchFields is the form of a note.
type stitchFields struct {
	Stitching
	form   *widgets.Form
	lines  []*widgets.Field // in the order of stitchLines
	still  *widgets.Check
	fabric *widgets.Choice
	told   *fyne.Container
	file   *widgets.Field
}

// stitchLines are the lines of a note: what they ask, a hint, where they are kept.
var stitchLines = []struct {
	name, ask, hint string
	at              func(*stash.StitchNote) *string
}{
	{"seam", "Which seam", "side seam", func(n *stash.StitchNote) *string { return &n.Seam }},
	{"stitch", "Stitch", "narrow zigzag", func(n *stash.StitchNote) *string { return &n.Stitch }},
	{"width", "Width", "0.5", func(n *stash.StitchNote) *string { return &n.Width }},
	{"length", "Length", "2.5", func(n *stash.StitchNote) *string { return &n.Length }},
	{"feed", "Differential feed", "1.3", func(n *stash.StitchNote) *string { return &n.Feed }},
	{"needle", "Needle", "stretch 75/11", func(n *stash.StitchNote) *string { return &n.Needle }},
	{"tension", "Tension", "3.5", func(n *stash.StitchNote) *string { return &n.Tension }},
	{"thread", "Thread", "polyester 120", func(n *stash.StitchNote) *string { return &n.Thread }},
	{"note", "What else to remember", "hold it taut over the first stitches", func(n *stash.StitchNote) *string { return &n.Note }},
}

// edit opens the form of a note, counted from 1; 0 is a new one.
func (s Stitching) edit(at int) {
	e := &stitchFields{Stitching: s, told: container.NewVBox()}
	var now stash.StitchNote
	title, send := "A stitch that worked on "+s.Name, "Note it"
	if at > 0 {
		now, title, send = s.Notes[at-1], "Change a stitch of "+s.Name, "Keep the changes"
	}
	for _, l := range stitchLines {
		f := widgets.NewField(l.ask, l.hint, nil)
		f.Set(*l.at(&now))
		f.Changed = e.look
		e.lines = append(e.lines, f)
		s.Host.Names.Set("form."+l.name, f.Entry)
	}
	e.still = widgets.NewCheck("This seam need not stretch, such as a shoulder over tape", func(bool) { e.look() })
	e.still.Checked = now.Still
	s.Host.Names.Set("form.still", e.still)
	var words []string
	for _, f := range s.Fabrics {
		words = append(words, f.Name)
	}
	e.fabric = widgets.NewChoice("On which fabric", words, func(string) { e.look() })
	if at > 0 && s.For[at-1] >= 0 {
		e.fabric.SetSelectedIndex(s.For[at-1])
	}
	var row fyne.CanvasObject
	e.file, row = pictureField(s.Host, "Photo of the scrap (if there is one)", "scrap.jpg")
	o := func(i int) fyne.CanvasObject { return e.lines[i].Object() }
	first := []fyne.CanvasObject{o(0), o(1)}
	if len(words) > 1 {
		first = append(first, e.fabric.Object())
	}
	e.form = &widgets.Form{Title: title, About: strconv.Itoa(at), Send: send, Say: say.Error, Width: 720, Fields: append(e.lines, e.file),
		Rows: [][]fyne.CanvasObject{first, {o(2), o(3), o(4)}, {o(5), o(6), o(7)}, {o(8)}, {e.still}, {row}, {e.told}}}
	e.form.Done = func() error { return e.send(at) }
	e.look()
	s.Host.ShowForm(e.form)
	s.Host.Names.Set("form.told", e.told)
}

func (e *stitchFields) note() (n stash.StitchNote) {
	for i, l := range stitchLines {
		*l.at(&n) = strings.TrimSpace(e.lines[i].Text())
	}
	n.Still = e.still.Checked
	return n
}

func (e *stitchFields) fabricFor() (stash.Fabric, bool) {
	if i := e.fabric.SelectedIndex(); i >= 0 && i < len(e.Fabrics) {
		return e.Fabrics[i], true
	}
	return stash.Fabric{}, false
}

// look says what speaks against what is typed, once there is something to speak of.
func (e *stitchFields) look() {
	if e.form == nil {
		return
	}
	e.told.RemoveAll()
	f, ok := e.fabricFor()
	if n := e.note(); ok && (n.Stitch != "" || n.Needle != "") {
		for _, d := range n.Doubts(f) {
			e.told.Add(widgets.Remark("! ", d, widgets.Careful))
		}
	}
	e.form.Refit()
}

func (e *stitchFields) send(at int) error {
	in := planner.StitchForm{Of: e.Of, OfID: e.ID, At: at, Note: e.note()}
	if _, _, err := stash.PutStitch(e.Notes, at, in.Note); err != nil {
		return err // said in the form, before anything is read
	}
	if f, ok := e.fabricFor(); ok {
		in.FabricID = f.ID
	}
	if path := strings.TrimSpace(e.file.Text()); path != "" {
		data, err := page.ReadPicture(path)
		if err != nil {
			return err
		}
		in.Scrap = data
	}
	e.Host.Act("keep stitch", func(ctx context.Context) (string, error) {
		_, err := e.Host.Studio.KeepStitch(ctx, in)
		return "Noted: " + say.Stitch(in.Note), err
	}, func(err error) {
		if err != nil { // what was typed is there again, to be corrected
			e.Host.ShowForm(e.form)
			return
		}
		e.Shown()
	})
	return nil
}
