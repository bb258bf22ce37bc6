package bindingui

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// noFabric is chosen while strips are worked out without cloth.
const noFabric = "not chosen yet"

// fromFields say which cloth the strips are cut from.
type fromFields struct {
	host    *page.Host
	changed func()
	choice  *widgets.Choice
	list    *fyne.Container
	object  fyne.CanvasObject
	cloths  []stash.ClothState
	off     map[stash.ID]bool // cloth that was unchecked
}

func newFromFields(h *page.Host, changed func()) *fromFields {
	f := &fromFields{host: h, changed: changed, list: container.NewVBox(), off: map[stash.ID]bool{}}
	f.choice = widgets.NewChoice("Fabric", []string{noFabric}, func(string) { f.fill(); changed() })
	h.Names.Set("binding.fabric", f.choice)
	f.object = f.list
	return f
}

// set takes over the cloth on the shelf.
func (f *fromFields) set(cloths []stash.ClothState) {
	f.cloths = cloths
	words := []string{noFabric}
	for _, c := range cloths {
		if !slices.Contains(words, c.Fabric.Name) {
			words = append(words, c.Fabric.Name)
		}
	}
	f.choice.Words(words)
	f.fill()
}

// of is the cloth of the fabric chosen, leftovers before whole lengths, the smaller first:
// what serves for strips is used up before a length is cut into.
func (f *fromFields) of() []stash.ClothState {
	var out []stash.ClothState
	for _, c := range f.cloths {
		if c.Fabric.Name == f.choice.Selected {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b stash.ClothState) int {
		return cmp.Or(cmp.Compare(a.FreeArea, b.FreeArea), bytes.Compare(a.Cloth.ID[:], b.Cloth.ID[:]))
	})
	return out
}

// fill lists the cloth of the fabric, each to be used or not.
func (f *fromFields) fill() {
	f.list.RemoveAll()
	v := f.host.Voice()
	if f.choice.Selected == noFabric {
		f.list.Add(widgets.Line("Choose the fabric above.", widgets.Quiet))
	}
	for _, c := range f.of() {
		id := c.Cloth.ID
		check := widgets.NewCheck(clothWords(v, c), nil)
		check.Checked = !f.off[id]
		check.OnChanged = func(on bool) { f.off[id] = !on; f.changed() }
		f.host.Names.Set("binding.from."+c.Cloth.Code, check)
		f.list.Add(check)
	}
	f.list.Refresh()
}

// kept chooses the fabric that is kept for a garment, that of its binding first, whatever was worked out
// for another before.
func (f *fromFields) kept(id stash.ID) {
	word := ""
	for _, c := range f.cloths {
		for _, r := range c.Reservations {
			if r.GarmentID == id && (word == "" || r.UsedFor == pattern.Binding) {
				word = c.Fabric.Name
			}
		}
	}
	if word != "" && word != f.choice.Selected {
		f.choice.SetSelected(word)
	}
}

func clothWords(v say.Voice, c stash.ClothState) string {
	words := []string{c.Cloth.Code, v.Size(c.Cloth), v.Area(c.FreeArea) + " free"}
	if c.Cloth.Place != "" {
		words = append(words, c.Cloth.Place)
	}
	return strings.Join(words, " · ")
}

// chosen is the cloth to cut from, in the order to use it.
func (f *fromFields) chosen() []stash.ClothState {
	return slices.DeleteFunc(f.of(), func(c stash.ClothState) bool { return f.off[c.Cloth.ID] })
}

// now is the fabric chosen, or one without an ID.
func (f *fromFields) now() stash.Fabric {
	for _, c := range f.cloths {
		if c.Fabric.Name == f.choice.Selected {
			return c.Fabric
		}
	}
	return stash.Fabric{}
}
