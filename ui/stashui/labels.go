package stashui

import (
	"fmt"

	"tallycloth/stash"
	"tallycloth/ui/paperui"
)

// Labels shows labels for the cloth chosen, or for all in the list.
func (p *Page) Labels(c stash.ClothState) {
	all := p.listed()
	paperui.Labels(p.host, paperui.LabelSet{Words: c.Fabric.Name + " " + c.Cloth.Code, Cloths: []stash.ClothState{c}},
		paperui.LabelSet{Words: fmt.Sprintf("everything in the list (%d)", len(all)), Cloths: all})
}

// listed are the cloths in the list, as it is filtered.
func (p *Page) listed() []stash.ClothState {
	var out []stash.ClothState
	for _, r := range p.list.Rows() {
		if id, ok := r.Key.(stash.ID); ok {
			if c, ok := p.cloth(id); ok {
				out = append(out, c)
			}
		}
	}
	return out
}
