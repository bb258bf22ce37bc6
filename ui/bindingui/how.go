package bindingui

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/binding"
	"tallycloth/stash/measure"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// Words of the choices.
var (
	grainWords = []string{"across the fabric", "along the selvedges", "on the bias"}
	joinWords  = []string{"straight", "at 45°"}
	passWords  = []string{"nothing", "head", "shoulders", "bust", "hip"}
)

// howFields say how a strip is held in, cut, joined and ended.
type howFields struct {
	host                       *page.Host
	held, grain, joins, passes *widgets.Choice
	part, catches              *widgets.Choice // which part of the edge, and what its end catches
	caught                     map[string]string
	told                       *fyne.Container // what is caught, in words
	holdIn, drawn, extra, lap  *widgets.Field
	girth, noJoin, joinAt      *widgets.Field
	clear, lockstitch          *widgets.Check
	offers                     []binding.Offer
	object                     fyne.CanvasObject
	wantedBy                   binding.Basis // what is chosen, while the offers change
	wantedRule                 float64
	drawnNow                   float64 // how far free parts draw out where nothing is typed
}

func newHowFields(h *page.Host, changed func()) *howFields {
	f := &howFields{host: h, drawnNow: binding.DrawnOut, caught: map[string]string{}, told: container.NewVBox()}
	choice := func(name string, words []string) *widgets.Choice {
		return widgets.NewChoice(name, words, func(string) { changed() })
	}
	f.held = widgets.NewChoice("Held in", []string{string(binding.ByCurve)}, func(string) { f.chose(); changed() })
	f.grain, f.joins = choice("Cut", grainWords), choice("Joined", joinWords)
	f.passes = widgets.NewChoice("Must pass", passWords, func(string) { f.asks(); changed() })
	f.part = widgets.NewChoice("End of the part", nil, func(string) { f.showCaught() })
	f.catches = widgets.NewChoice("catches the end of", []string{nothing}, func(word string) { f.catch(word); changed() })
	field := func(name, hint string, read func(string) (string, error)) *widgets.Field {
		out := widgets.NewField(name, hint, read)
		out.Changed = changed
		return out
	}
	f.holdIn = field("Hold-in", "0.95", readHoldIn)
	f.drawn = field("Straps draw out", "3 %", readShare)
	f.extra = field("Left at free ends", "6 cm", f.length)
	f.lap = field("Lap at free ends", "none", f.length)
	f.girth = field("Its girth", "57 cm", f.length)
	f.noJoin = field("No join on (parts)", "any", nil)
	f.joinAt = field("Join wished after", "no part", nil)
	f.clear = widgets.NewCheck("Clear elastic in straps", func(bool) { changed() })
	f.lockstitch = widgets.NewCheck("Plain lockstitch", func(bool) { changed() })
	f.object = container.NewVBox(
		container.NewGridWithColumns(3, f.held.Object(), f.holdIn.Object(), f.grain.Object()),
		container.NewGridWithColumns(3, f.joins.Object(), f.noJoin.Object(), f.joinAt.Object()),
		container.NewGridWithColumns(3, f.drawn.Object(), f.extra.Object(), f.lap.Object()),
		container.NewGridWithColumns(2, f.passes.Object(), f.girth.Object()),
		container.NewGridWithColumns(2, f.part.Object(), f.catches.Object()), f.told,
		container.NewGridWithColumns(2, f.clear, f.lockstitch))
	for name, o := range map[string]fyne.CanvasObject{
		"held": f.held, "grain": f.grain, "joined": f.joins, "passes": f.passes, "catches.part": f.part, "catches": f.catches, "clear": f.clear, "lockstitch": f.lockstitch,
		"holdin": f.holdIn.Entry, "drawn": f.drawn.Entry, "extra": f.extra.Entry, "lap": f.lap.Entry, "girth": f.girth.Entry,
		"nojoin": f.noJoin.Entry, "joinat": f.joinAt.Entry,
	} {
		h.Names.Set("binding."+name, o)
	}
	f.asks()
	return f
}

// nothing is the word for no edge.
const nothing = "nothing"

// asks lets a girth be typed where there is something to pass.
func (f *howFields) asks() {
	if f.passes.SelectedIndex() > 0 {
		f.girth.Entry.Enable()
	} else {
		f.girth.Entry.Disable()
	}
}

// chose keeps what was chosen, so that it holds while the numbers beside it change.
func (f *howFields) chose() {
	if i := f.held.SelectedIndex(); i >= 0 && i < len(f.offers) {
		f.wantedBy, f.wantedRule = f.offers[i].Basis, f.offers[i].Rule
	}
}

// offer shows the ways to hold the strip in.
func (f *howFields) offer(offers []binding.Offer) {
	f.offers = slices.DeleteFunc(slices.Clone(offers), byHand)
	words, at := offerWords(f.offers, f.wantedBy, f.wantedRule)
	if slices.Equal(words, f.held.Options) && f.held.SelectedIndex() == at || len(words) == 0 {
		return
	}
	changed := f.held.OnChanged
	f.held.OnChanged = nil
	f.held.Words(words)
	f.held.SetSelectedIndex(at)
	f.held.OnChanged = changed
}

// draws says how far free parts draw out where nothing is typed: as measured last time on the fabric, or
// the usual.
func (f *howFields) draws(by float64) {
	f.drawnNow = by
	text := measure.FormatPercent(measure.PercentOf(by))
	if by != binding.DrawnOut {
		text += " last time"
	}
	if f.drawn.Entry.PlaceHolder != text {
		f.drawn.Entry.SetPlaceHolder(text)
	}
}

// catchable offers the parts of the edge, and the edges finished before it whose ends they may catch.
func (f *howFields) catchable(parts, edges []string) {
	words := append([]string{nothing}, edges...)
	for _, to := range f.caught { // as the pattern says, even where that edge is not among these
		if !slices.Contains(words, to) {
			words = append(words, to)
		}
	}
	if slices.Equal(words, f.catches.Options) && slices.Equal(parts, f.part.Options) {
		return
	}
	f.catches.Words(words)
	f.part.Words(parts)
	if i := slices.IndexFunc(parts, func(p string) bool { return f.caught[p] != "" }); i >= 0 && f.caught[f.part.Selected] == "" {
		changed := f.part.OnChanged
		f.part.OnChanged = nil
		f.part.SetSelectedIndex(i)
		f.part.OnChanged = changed
	}
	f.showCaught()
}

// catch keeps what the part chosen catches.
func (f *howFields) catch(word string) {
	delete(f.caught, f.part.Selected)
	if word != nothing {
		f.caught[f.part.Selected] = word
	}
	f.tellCaught()
}

// showCaught shows what the part chosen catches.
func (f *howFields) showCaught() {
	word := f.caught[f.part.Selected]
	if word == "" {
		word = nothing
	}
	changed := f.catches.OnChanged
	f.catches.OnChanged = nil
	f.catches.SetSelected(word)
	f.catches.OnChanged = changed
	f.tellCaught()
}

// tellCaught lists in words what each part catches.
func (f *howFields) tellCaught() {
	var out []string
	for _, p := range f.part.Options {
		if f.caught[p] != "" {
			out = append(out, p+" catches the end of "+f.caught[p])
		}
	}
	f.told.Objects = nil
	if len(out) > 0 {
		f.told.Objects = []fyne.CanvasObject{widgets.Remark("", say.Sentence(strings.Join(out, "; ")), widgets.Quiet)}
	}
	f.told.Refresh()
}

// set fills the fields in from a job.
func (f *howFields) set(j binding.Job) {
	v := f.host.Voice()
	f.wantedBy, f.wantedRule = j.By, j.Rule
	f.grain.SetSelectedIndex(int(j.Grain))
	f.joins.SetSelectedIndex(map[bool]int{false: 0, true: 1}[j.JoinAt45])
	f.clear.SetChecked(j.ClearElastic)
	f.lockstitch.SetChecked(j.Lockstitch)
	f.passes.SetSelectedIndex(max(0, slices.Index(passWords, j.PassesName)))
	f.holdIn.Set("")
	if j.HoldIn > 0 {
		f.holdIn.Set(strconv.FormatFloat(j.HoldIn, 'g', 3, 64))
	}
	f.drawn.Set("")
	if j.Drawn != binding.DrawnOut {
		f.drawn.Set(measure.FormatPercent(measure.PercentOf(j.Drawn)))
	}
	clear(f.caught)
	for _, s := range j.Segments {
		if s.Catches != "" {
			f.caught[s.Name] = s.Catches
		}
	}
	for field, l := range map[*widgets.Field]measure.Length{f.extra: j.EndExtra, f.lap: j.Lap, f.girth: j.Passes} {
		field.Set("")
		if l > 0 {
			field.Set(v.Fine(l))
		}
	}
	var no, at []string
	for _, s := range j.Segments {
		if s.NoJoin {
			no = append(no, s.Name)
		}
		if s.JoinHere {
			at = append(at, s.Name)
		}
	}
	f.noJoin.Set(strings.Join(no, ", "))
	f.joinAt.Set(strings.Join(at, ", "))
	f.asks()
}

// read puts the fields into a job whose parts are read already; false while one cannot be read.
func (f *howFields) read(j *binding.Job) bool {
	ok := true
	for _, x := range []*widgets.Field{f.holdIn, f.drawn, f.extra, f.lap, f.girth} {
		ok = (x.Entry.Disabled() || x.Valid()) && ok
	}
	if !ok {
		return false
	}
	j.By, j.Rule = f.wantedBy, f.wantedRule
	j.Grain = binding.Grain(max(f.grain.SelectedIndex(), 0))
	j.JoinAt45, j.ClearElastic, j.Lockstitch = f.joins.SelectedIndex() == 1, f.clear.Checked, f.lockstitch.Checked
	j.HoldIn = 0
	if k, err := holdIn(f.holdIn.Text()); err == nil {
		j.HoldIn = k
	}
	if p, err := measure.ParsePercent(f.drawn.Text()); err == nil {
		if math.Abs(p.Fraction()-j.Drawn) > 0.00005 {
			j.Drawn = p.Fraction()
		}
	} else {
		j.Drawn = f.drawnNow
	}
	f.lengths(j)
	j.PassesName = passWords[max(f.passes.SelectedIndex(), 0)]
	if f.passes.SelectedIndex() <= 0 {
		j.Passes, j.PassesName = 0, ""
	}
	f.marked(j)
	return true
}

// lengths reads the lengths; those that were not touched keep their exact values.
func (f *howFields) lengths(j *binding.Job) {
	v := f.host.Voice()
	for field, into := range map[*widgets.Field]*measure.Length{f.extra: &j.EndExtra, f.lap: &j.Lap, f.girth: &j.Passes} {
		text := field.Text()
		switch {
		case text == "" && field == f.extra:
			*into = binding.FreeEndExtra
		case text == "":
			*into = 0
		case *into == 0 || v.Fine(*into) != text:
			*into, _ = measure.ParseLength(text, f.bare())
		}
	}
}

// marked says of the parts where joins may not fall and are wished for, and what is caught.
func (f *howFields) marked(j *binding.Job) {
	no, at := namesIn(f.noJoin.Text()), namesIn(f.joinAt.Text())
	for i := range j.Segments {
		s := &j.Segments[i]
		name := strings.ToLower(s.Name)
		s.NoJoin, s.JoinHere = slices.Contains(no, name), slices.Contains(at, name)
		s.Catches = f.caught[s.Name]
		if s.Catches == "" {
			s.CrossEnd = 0
		}
	}
}

// namesIn parts names at commas.
func namesIn(text string) []string {
	var out []string
	for _, s := range strings.Split(strings.ToLower(text), ",") {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

func (f *howFields) bare() measure.Unit {
	if f.host.Settings().Units == measure.Imperial {
		return measure.Inch
	}
	return measure.Centimetre
}

func (f *howFields) length(text string) (string, error) {
	l, err := measure.ParseLength(text, f.bare())
	if err != nil {
		return "", err
	}
	return f.host.Voice().Fine(l), nil
}

// holdIn reads how far a strip is held in.
func holdIn(text string) (float64, error) {
	k, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(text), ",", "."), 64)
	if err != nil || !(k >= 0.8 && k <= 1.05) {
		return 0, fmt.Errorf("type 0.92 to 0.98")
	}
	return k, nil
}

func readHoldIn(text string) (string, error) {
	k, err := holdIn(text)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%.4g of a straight edge", k), nil
}
