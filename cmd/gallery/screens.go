package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"tallycloth/planner/draft"
	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/exchange/table"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
	"tallycloth/ui/widgets"
)

// screen is one picture: how the window comes to show it.
type screen struct {
	name  string
	empty bool // with an empty library
	show  func(*stage)
}

// writes says whether the screen leaves something in its library: batches are kept when their
// window closes.
func (sc screen) writes() bool { return strings.HasPrefix(sc.name, "batch") }

// meant says whether the name of the screen begins as one of those, which commas part.
func (sc screen) meant(only string) bool {
	return slices.ContainsFunc(strings.Split(only, ","), func(s string) bool { return strings.HasPrefix(sc.name, s) })
}

// readOnly says whether the library of the screen can only be looked at.
func (sc screen) readOnly() bool { return strings.HasPrefix(sc.name, "readonly") }

// stage is a window that screens are shown in.
type stage struct {
	window fyne.Window
	shell  *ui.Shell
	folder string // for files that screens need
}

// screens lists every screen in the order of the rail.
var screens = []screen{
	{"stash", false, func(s *stage) { s.row("stash.list", 3) }},
	{"stash-leftover", false, func(s *stage) { s.row("stash.list", 6) }},
	{"stash-nohits", false, func(s *stage) { s.put("stash.filter", "linen, at least 3 m, in the cellar") }},
	{"stash-wrong", false, func(s *stage) {
		s.press("stash.log")
		s.put("form.width", "wide")
		s.put("form.length", "one and a bit")
		s.put("form.price", "twelve")
		s.press("form.send")
	}},
	{"stash-labels", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.labels") }},
	{"readonly", false, func(s *stage) { s.row("stash.list", 3) }},
	{"stash-empty", true, func(*stage) {}},
	{"stash-log", false, func(s *stage) { s.press("stash.log") }},
	{"stash-add", false, func(s *stage) { s.press("stash.add") }},
	{"stash-draw", false, func(s *stage) { s.press("stash.add"); s.press("form.draw"); s.drawn() }},
	{"stash-photo", false, func(s *stage) { s.press("stash.add"); s.press("form.photo") }},
	{"stash-measure", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.measure") }},
	{"stash-make", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.make") }},
	{"stash-list", false, func(s *stage) { s.press("stash.bring"); s.list(); s.row("list.rows", 2) }},
	{"stash-list-empty", false, func(s *stage) { s.press("stash.bring") }},
	{"stash-log-lines", false, func(s *stage) { s.press("stash.log"); s.lines() }},
	{"stash-notions", false, func(s *stage) { s.press("stash.notions"); s.row("notions.list", 1) }},
	{"stash-notions-empty", true, func(s *stage) { s.press("stash.notions") }},
	{"stash-notions-add", false, func(s *stage) { s.press("stash.notions"); s.press("notions.add") }},
	{"stash-purchases", false, func(s *stage) { s.press("stash.purchases"); s.row("purchases.list", 2) }},
	{"stash-export", false, func(s *stage) { s.press("stash.export") }},
	{"patterns", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0) }},
	{"patterns-empty", true, func(s *stage) { s.go_(page.Patterns) }},
	{"patterns-find", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0); s.press("pattern.find") }},
	{"patterns-strips", false, func(s *stage) {
		s.go_(page.Patterns)
		s.row("patterns.list", 0)
		s.press("pattern.find")
		s.press("find.strips")
	}},
	{"patterns-reserve", false, func(s *stage) {
		s.go_(page.Patterns)
		s.row("patterns.list", 0)
		s.press("pattern.find")
		s.press("find.reserve")
	}},
	{"patterns-hand", false, func(s *stage) {
		s.go_(page.Patterns)
		s.row("patterns.list", 0)
		s.press("pattern.find")
		s.row("find.list", 2)
		s.press("find.move")
		s.move(0, shape.Point{X: 120_000, Y: -300_000})
	}},
	{"stash-change", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.change") }},
	{"settings", false, func(s *stage) { s.press("rail.settings") }},
	{"settings-return", false, func(s *stage) { s.press("rail.settings"); s.press("settings.return") }},
	{"settings-backup", false, func(s *stage) { s.press("rail.settings"); s.press("settings.backup") }},
	{"help", false, func(s *stage) { s.press("rail.help") }},
	{"help-keys", false, func(s *stage) { s.press("rail.help"); s.row("help.list", 6) }},
	{"patterns-want", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0); s.press("pattern.want") }},
	{"patterns-outlines", false, func(s *stage) { s.go_(page.Patterns); s.press("patterns.bring"); s.drawing() }},
	{"patterns-marks", false, func(s *stage) {
		s.go_(page.Patterns)
		s.press("patterns.bring")
		s.drawing()
		s.choice("outlines.marksof", 1)
	}},
	{"patterns-dxf", false, func(s *stage) { s.go_(page.Patterns); s.press("patterns.bring"); s.dxf() }},
	{"patterns-pdf", false, func(s *stage) {
		s.go_(page.Patterns)
		s.press("patterns.bring")
		s.pdf()
		s.choice("outlines.shows", 2)
	}},
	{"patterns-edit", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0); s.press("pattern.edit") }},
	{"patterns-trace", false, func(s *stage) { s.go_(page.Patterns); s.press("patterns.trace") }},
	{"patterns-save", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0); s.press("pattern.outlines") }},
	{"patterns-people", false, func(s *stage) {
		s.people()
		s.row("people.list", 0)
	}},
	{"patterns-people-measure", false, func(s *stage) {
		s.people()
		s.row("people.list", 0)
		s.press("person.measure")
		s.focus("measure.hip")
	}},
	{"patterns-people-empty", true, func(s *stage) { s.go_(page.Patterns); s.press("patterns.people") }},
	{"patterns-quick", false, func(s *stage) { s.go_(page.Patterns); s.press("patterns.quick"); s.quick() }},
	{"patterns-chart", false, func(s *stage) {
		s.go_(page.Patterns)
		if l, ok := s.shell.Names().Get("patterns.list").(*widgets.RowList); ok && len(l.Rows()) == 3 { // the library is the same for every picture
			s.press("patterns.quick")
			s.quick()
			s.press("quick.save")
		}
		s.row("patterns.list", 3)
		s.press("pattern.chart")
	}},
	{"patterns-quick-empty", false, func(s *stage) { s.go_(page.Patterns); s.press("patterns.quick") }},
	{"garments", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 1) }},
	{"garments-sheet", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 3); s.press("garment.sheet") }},
	{"garments-cutlist", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 3); s.press("garment.cutlist") }},
	{"garments-project", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 5); s.press("garment.project") }},
	{"garments-full", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 3); s.press("garment.full") }},
	{"patterns-full", false, func(s *stage) { s.go_(page.Patterns); s.row("patterns.list", 0); s.press("pattern.full") }},
	{"garments-record", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 4); s.press("garment.seam") }},
	{"garments-sewing", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 5) }},
	{"garments-change", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 1); s.press("garment.change") }},
	{"garments-adjust", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 1); s.press("adjust.add"); s.adjusted() }},
	{"garments-panels", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 1); s.press("adjust.add"); s.panels() }},
	{"garments-fitting", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 4); s.press("garment.fitting") }},
	{"garments-cut", false, func(s *stage) { s.go_(page.Garments); s.row("garments.list", 3); s.press("garment.cut") }},
	{"stash-care", false, func(s *stage) { s.row("stash.list", 3); s.press("stash.care") }},
	{"stash-stitch", false, func(s *stage) {
		s.row("stash.list", 3)
		s.press("stitch.add")
		s.put("form.stitch", "straight")
		s.put("form.needle", "universal 80")
	}},
	{"garments-empty", true, func(s *stage) { s.go_(page.Garments) }},
	{"batch", false, func(s *stage) { s.batch(); s.press("batch.go") }},
	{"batch-cloth", false, func(s *stage) {
		s.batch()
		s.press("batch.view.cloth")
		s.row("batch.cloth", 3)
		s.press("batch.cloth.first")
		s.row("batch.cloth", 5)
		s.press("batch.cloth.not")
	}},
	{"batch-row", false, func(s *stage) { s.batch(); s.row("batch.rows", 1); s.press("batch.change") }},
	{"batch-row-person", false, func(s *stage) {
		s.people()
		s.batch()
		s.row("batch.rows", 0)
		s.press("batch.change")
		s.choice("form.person", 1)
		s.choice("form.use.2", 2)
	}},
	{"batch-row-fabrics", false, func(s *stage) {
		s.batch()
		s.row("batch.rows", 0)
		s.press("batch.change")
		s.choice("form.use.2", 3)
		s.press("form.fabrics.2")
		s.put("fabrics.filter", "e")
	}},
	{"batch-paper", false, func(s *stage) { s.batch(); s.press("batch.go"); s.press("batch.paper") }},
	{"batch-paper-cutlist", false, func(s *stage) { s.batch(); s.press("batch.go"); s.press("batch.paper"); s.choice("paper.which", 1) }},
	{"batch-made", false, func(s *stage) { s.batch(); s.press("batch.go"); s.press("batch.view.made") }},
	{"batch-missing", false, func(s *stage) {
		s.batch()
		s.more()
		s.press("batch.go")
		s.press("batch.view.missing")
	}},
	{"batch-compare", false, func(s *stage) {
		s.batch()
		s.more()
		s.press("batch.go")
		s.keep("leftovers alone")
		s.choice("batch.whole", 1)
		s.press("batch.go")
		s.keep("whole lengths too")
		s.press("batch.view.compare")
	}},
	{"batch-empty", true, func(s *stage) { s.go_(page.Batch) }},
	{"history", false, func(s *stage) { s.history("movements"); s.row("history.list", 2) }},
	{"history-yardage", false, func(s *stage) { s.history("yardage") }},
	{"history-value", false, func(s *stage) { s.history("value") }},
	{"history-costs", false, func(s *stage) { s.history("costs"); s.row("history.garments", 0) }},
	{"history-shopping", false, func(s *stage) { s.history("shopping") }},
	{"history-shopping-print", false, func(s *stage) { s.history("shopping"); s.press("history.print") }},
	{"history-print", false, func(s *stage) { s.history("movements"); s.press("history.print") }},
	{"history-empty", true, func(s *stage) { s.history("movements") }},
	{"binding", false, func(s *stage) { s.go_(page.Binding) }},
	{"binding-edge", false, func(s *stage) { s.go_(page.Binding); s.edge(1) }},
	{"binding-all", false, func(s *stage) { s.go_(page.Binding); s.edge(0) }},
	{"binding-typed", false, func(s *stage) { s.go_(page.Binding); s.neck() }},
	{"binding-elastic", false, func(s *stage) {
		s.go_(page.Binding)
		s.press("binding.elastic")
		s.put("binding.elastic.girth", "74 cm")
		s.put("binding.elastic.hip", "102 cm")
		s.put("binding.elastic.stretch", "90 %")
	}},
	{"binding-bias", false, func(s *stage) { s.go_(page.Binding); s.press("binding.bias"); s.put("binding.bias.wanted", "12 m") }},
	{"binding-own", false, func(s *stage) {
		s.go_(page.Binding)
		s.press("binding.own")
		s.put("binding.own.name", "Rolled rim")
		s.put("binding.own.layers", "three widths, two seams, one turn, wraps the edge")
	}},
	{"binding-print", false, func(s *stage) { s.go_(page.Binding); s.edge(0); s.press("binding.print") }},
	{"binding-print-letter", false, func(s *stage) { s.go_(page.Binding); s.edge(0); s.press("binding.print"); s.letter() }},
	{"binding-guide-letter", false, func(s *stage) { s.go_(page.Binding); s.edge(0); s.press("binding.guide"); s.letter() }},
	{"binding-guide", false, func(s *stage) { s.go_(page.Binding); s.edge(0); s.press("binding.guide") }},
}

func (s *stage) go_(place string) { s.shell.Go(page.Route{Place: place}) }

// batch wants garments of three patterns.
func (s *stage) batch() {
	s.go_(page.Batch)
	for i, w := range [][3]string{{"3", "1", "Ida"}, {"4", "1", ""}, {"3", "2", "the spring class"}} {
		s.press("batch.add")
		s.choice("form.pattern", i)
		s.put("form.count", w[0])
		s.put("form.priority", w[1])
		s.put("form.who", w[2])
		if i == 1 {
			s.put("form.by", "2026-05-30")
		}
		s.press("form.send")
	}
}

// more wants more garments than leftovers can give.
func (s *stage) more() {
	s.press("batch.add")
	s.choice("form.pattern", 1)
	s.put("form.count", "8")
	s.put("form.priority", "3")
	s.press("form.send")
}

// keep keeps the batch under a name.
func (s *stage) keep(name string) {
	s.press("batch.keep")
	s.put("form.name", name)
	s.press("form.send")
}

// choice chooses the word at a place.
func (s *stage) choice(name string, i int) {
	if c, ok := s.shell.Names().Get(name).(*widgets.Choice); ok && i < len(c.Options) {
		c.SetSelectedIndex(i)
	}
}

// letter chooses North American paper.
func (s *stage) letter() {
	if c, ok := s.shell.Names().Get("paper.paper").(*widgets.Choice); ok {
		c.SetSelected("Letter")
	}
}

// history shows a record of the place History, over the whole history.
func (s *stage) history(record string) {
	s.go_(page.History)
	if c, ok := s.shell.Names().Get("history.period").(*widgets.Choice); ok {
		c.SetSelected("all")
	}
	s.press("history." + record)
}

// row chooses a row of a list.
func (s *stage) row(name string, i int) {
	if l, ok := s.shell.Names().Get(name).(*widgets.RowList); ok && i < len(l.Rows()) {
		l.Choose(l.Rows()[i].Key)
	}
}

// lines fills a purchase of two lines in, and a third that is being typed.
func (s *stage) lines() {
	for i, l := range [][2]string{{"1.5 m", "18.60"}, {"75 cm", "9"}, {"2 m", ""}} {
		if c, ok := s.shell.Names().Get("form.fabric").(*widgets.Choice); ok {
			c.SetSelectedIndex(3 + 2*i)
		}
		s.put("form.length", l[0])
		s.put("form.price", l[1])
		s.put("form.lot", "B"+string(rune('2'+i)))
		if i < 2 {
			s.press("form.addline")
		}
	}
	s.put("form.shop", "Saturday market")
	s.put("form.postage", "4.90")
}

// put fills a line in.
func (s *stage) put(name, text string) {
	if e, ok := s.shell.Names().Get(name).(*widgets.Entry); ok {
		e.SetText(text)
	}
}

// press taps a button.
func (s *stage) press(name string) {
	o, ok := s.shell.Names().Get(name).(fyne.Tappable)
	if d, can := o.(fyne.Disableable); ok && (!can || !d.Disabled()) {
		test.Tap(o)
	}
}

// move lets a piece of the layout go somewhere else.
func (s *stage) move(i int, by shape.Point) {
	if v, ok := s.shell.Names().Get("find.layout").(*widgets.LayoutView); ok && v.Mover != nil {
		v.Mover.Moved(i, by)
	}
}

// neck types a neck and an armhole that catches it, finished with a band.
func (s *stage) neck() {
	s.put("binding.part.1.length", "61 cm")
	s.choice("binding.part.1.runs", 1)
	s.put("binding.part.1.turns", "360")
	s.put("binding.name", "neck")
	s.choice("binding.technique", 2)
	s.press("binding.keep")
	s.put("binding.part.1.length", "43 cm")
	s.choice("binding.part.1.runs", 1)
	s.put("binding.part.1.turns", "150")
	s.choice("binding.catches", 1)
	s.choice("binding.fabric", 2)
}

// edge chooses the first pattern that has edges, one of them, and cloth to cut from.
func (s *stage) edge(i int) {
	s.choice("binding.pattern", 1)
	s.choice("binding.edge", i)
	s.choice("binding.fabric", 2)
}

// drawing reads a drawing of two pattern pieces and a test square.
func (s *stage) drawing() {
	path := filepath.Join(s.folder, "bolero.svg")
	if err := os.WriteFile(path, []byte(bolero), 0o600); err != nil {
		return
	}
	if e, ok := s.shell.Names().Get("outlines.file").(*widgets.Entry); ok {
		e.SetText(path)
		e.OnSubmitted(path)
	}
}

// dxf reads a pattern that was saved as DXF.
func (s *stage) dxf() {
	path := filepath.Join(s.folder, "sluice tee.dxf")
	tee := draft.Tee(draft.Chart())
	if err := outlines.Save(path, tee, drawn.Part{}); err != nil {
		return
	}
	if e, ok := s.shell.Names().Get("outlines.file").(*widgets.Entry); ok {
		e.SetText(path)
		e.OnSubmitted(path)
	}
}

// pdf brings a full-size print of a pattern in, its pages joined.
func (s *stage) pdf() {
	path := filepath.Join(s.folder, "sluice tee.pdf")
	tee := draft.Tee(draft.Chart())
	full, err := paper.PiecesPage(measure.Metric, tee, tee.Sizes[0].Name, nil)
	if err != nil {
		return
	}
	d, err := paper.Document(full, paper.Tiled, sheet.Full{Paper: sheet.A3})
	if err != nil || table.SaveNew(path, d.PDF) != nil {
		return
	}
	if e, ok := s.shell.Names().Get("outlines.file").(*widgets.Entry); ok {
		e.SetText(path)
		e.OnSubmitted(path)
	}
}

// people shows the people, one of them measured twice.
func (s *stage) people() {
	s.go_(page.Patterns)
	s.press("patterns.people")
	if l, ok := s.shell.Names().Get("people.list").(*widgets.RowList); ok && len(l.Rows()) > 0 {
		return // the library is the same for every picture
	}
	for _, who := range []string{"Ida", "Wren"} {
		s.press("people.add")
		s.put("person.name", who)
		s.press("person.send")
	}
	for _, day := range [][2]string{{"2025-03-02", "88"}, {"2026-01-04", "91,5"}} {
		s.row("people.list", 0)
		s.press("person.measure")
		for name, text := range map[string]string{"date": day[0], "bust": day[1], "high bust": "84", "waist": "76", "hip": "101", "height": "168"} {
			s.put("measure."+name, text)
		}
		s.press("measure.send")
	}
}

// focus puts the focus into a line.
func (s *stage) focus(name string) {
	if f, ok := s.shell.Names().Get(name).(fyne.Focusable); ok {
		s.window.Canvas().Focus(f)
	}
}

// quick fills in what a finished top with long sleeves measures.
func (s *stage) quick() {
	if c, ok := s.shell.Names().Get("quick.kind").(*widgets.Choice); ok {
		c.SetSelected("long sleeve")
	}
	for name, text := range map[string]string{"name": "Sluice top", "bust": "94 cm", "hip": "98; 104; 110", "length": "62 cm", "sleeve length": "59", "upper arm": "32 cm"} {
		s.put("quick."+name, text)
	}
}

// adjusted types a take-in at the waist.
func (s *stage) adjusted() { s.put("form.amount", "1.2 cm") }

// panels draws a line over the back, to be parted along it.
func (s *stage) panels() {
	if c, ok := s.shell.Names().Get("form.kind").(*widgets.Choice); ok {
		c.SetSelected("Part into panels")
	}
	if c, ok := s.shell.Names().Get("form.on").(*widgets.Choice); ok {
		c.SetSelectedIndex(2)
	}
	s.put("form.line", "30 100, 45 55, 100 40")
}

// list reads a list as a person may keep it, with a row that cannot come in and days
// that could be two.
func (s *stage) list() {
	path := filepath.Join(s.folder, "stash.csv")
	if err := os.WriteFile(path, []byte(ownList), 0o600); err != nil {
		return
	}
	if e, ok := s.shell.Names().Get("list.file").(*widgets.Entry); ok {
		e.SetText(path)
		e.OnSubmitted(path)
	}
}

// ownList is an invented list.
const ownList = "Fabric;Made;Fibres;Width;Length;Weight;Price per m;Bought on;Shop;Stars\n" +
	"Moss jersey;jersey;95% cotton 5% elastane;150 cm;1,25 m;180;12,50 €;3/4/2025;market;4\n" +
	"Moss jersey;;;;0,75 m;;;4/4/2025;market;\n" +
	"Thistle terry;french terry;cotton;170;2;280;18 €;31/2/2025;market;5\n" +
	"Plum ponte;ponte roma;70% viscose 25% polyamide 5% elastane;148;1,2;320;;;;\n" +
	"Nettle rib;ribbing;90% cotton 7% elastane;2x50;0,6;230;9 €;5/4/2025;fair;3\n"

// bolero is a drawing of an invented pattern.
const bolero = `<svg xmlns="http://www.w3.org/2000/svg" width="700mm" height="500mm" viewBox="0 0 700 500">
<rect id="square" x="10" y="380" width="100" height="100"/>
<path d="M20 20 h120 c10 60 60 90 120 90 v230 h-240 z"><title>Front</title></path>
<g><title>Back</title><path d="M320 20 h160 c-20 40 20 100 90 100 v220 h-250 z"/>
<path d="M400 80 v200 m-5 -192 l5 -8 5 8"/><path d="M570 240 h-7"/><path d="M570 246 h-7"/><path d="M320 200 h6"/><circle cx="500" cy="280" r="3"/><path d="M340 310 h200"/></g>
<path d="M600 100 l40 60"/>
</svg>`

// drawn draws a leftover with a hole on the grid.
func (s *stage) drawn() {
	for _, c := range [][2]string{{"10 cm", "12 cm"}, {"95 cm", "12 cm"}, {"95 cm", "48 cm"}, {"62 cm", "70 cm"}, {"10 cm", "70 cm"}} {
		s.put("draw.x", c[0])
		s.put("draw.y", c[1])
		s.press("draw.more")
	}
	s.press("draw.low")
	s.press("draw.hole")
}
