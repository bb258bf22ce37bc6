package bindingui

import (
	"slices"

	"tallycloth/planner"
	"tallycloth/planner/binding"
	"tallycloth/ui/widgets"
)

// held is how one edge of many is held in, as it was chosen.
type held struct {
	by   binding.Basis
	rule float64
}

// everyJob is all edges of the pattern, each held in as chosen, straps drawn out as measured last time.
func (p *Page) everyJob() []binding.Job {
	out := slices.Clone(p.jobs)
	for i, j := range out {
		if j.Drawn == binding.DrawnOut {
			out[i].Drawn = planner.DrawnLast(p.from.now(), j.Finish.Technique)
		}
		if h, ok := p.held[j.Name]; ok {
			out[i].By, out[i].Rule = h.by, h.rule
		}
	}
	return out
}

// heldChoice offers the ways to hold one of many edges in.
func (p *Page) heldChoice(j binding.Job) *widgets.Choice {
	offers := p.offersOf(j)
	words, at := offerWords(offers, p.held[j.Name].by, p.held[j.Name].rule)
	c := widgets.NewChoice("Held in: "+j.Name, words, nil)
	if len(words) > 0 {
		c.SetSelectedIndex(at)
	}
	c.OnChanged = func(string) {
		if i := c.SelectedIndex(); i >= 0 && i < len(offers) {
			p.held[j.Name] = held{offers[i].Basis, offers[i].Rule}
			p.work()
		}
	}
	p.host.Names.Set("binding.held."+j.Name, c)
	return c
}

// offersOf are the ways to hold an edge in that can be chosen.
func (p *Page) offersOf(j binding.Job) []binding.Offer {
	return slices.DeleteFunc(planner.RatioOffers(j, p.from.now(), p.host.Settings()), byHand)
}

func byHand(o binding.Offer) bool { return o.Basis == binding.ByHand }

// offerWords are offers as they are chosen by, and which of them is the one wanted.
func offerWords(offers []binding.Offer, by binding.Basis, rule float64) (words []string, at int) {
	for i, o := range offers {
		w := string(o.Basis)
		if o.Words != "" {
			w += ": " + o.Words
		}
		words = append(words, w)
		if o.Basis == by && (o.Basis != binding.ByLast || o.Rule == rule) {
			at = i
		}
	}
	return words, at
}
