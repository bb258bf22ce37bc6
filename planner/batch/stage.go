package batch

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// arrange puts the cloths in turn: leftovers first, whole lengths last, those that are alike
// beside each other; cloths that give nothing are left out.
func (c *choice) arrange(options [][]option) {
	var cloths []int
	looks := make([]string, len(options))
	for i, all := range options {
		if len(all) > 1 || all[0].f != nil {
			cloths = append(cloths, i)
			looks[i] = c.look(i, all)
		}
	}
	slices.SortStableFunc(cloths, func(a, b int) int {
		x, y := c.Cloths[a], c.Cloths[b]
		return cmp.Or(compareBool(x.Whole, y.Whole), cmp.Compare(x.Lot, y.Lot), cmp.Compare(x.Area, y.Area), cmp.Compare(looks[a], looks[b]))
	})
	for i, cloth := range cloths {
		st := stage{cloth: cloth, options: options[cloth]}
		st.best, st.most = bestOf(st.options)
		st.same = i > 0 && looks[cloth] == looks[cloths[i-1]]
		for j := range st.options {
			st.options[j].hash = c.hashOf(st.options[j].parts)
		}
		c.stages = append(c.stages, st)
	}
	c.lookAhead()
}

// look describes what matters of a cloth for the choice: those that look the same are
// interchangeable.
func (c *choice) look(cloth int, all []option) string {
	var b strings.Builder
	cl := c.Cloths[cloth]
	fmt.Fprint(&b, cl.Lot, cl.Whole, cl.First, len(c.pinned[cloth]))
	if len(c.pinned[cloth]) > 0 {
		fmt.Fprint(&b, "pinned", cloth) // like no other
	}
	if all[0].f != nil {
		fmt.Fprint(&b, "stays", cloth)
	}
	for _, o := range all[1:] {
		fmt.Fprintf(&b, " %q %d", o.f.key, o.f.waste)
	}
	return b.String()
}

func (c *choice) hashOf(parts []part) [2]uint64 {
	var h [2]uint64
	for _, p := range parts {
		h[0] += uint64(p.n) * c.hash[p.slot][0]
		h[1] += uint64(p.n) * c.hash[p.slot][1]
	}
	return h
}

// lookAhead notes for each stage what the later ones can give.
func (c *choice) lookAhead() {
	after := make([]int, len(c.tasks))
	var rest Score
	served := make([]bool, len(c.Rows))
	for i := len(c.stages) - 1; i >= 0; i-- {
		st := &c.stages[i]
		st.after, st.rest = slices.Clone(after), rest
		most := make([]int, len(c.tasks))
		for _, o := range st.options {
			for _, p := range o.parts {
				t := c.slots[p.slot].task
				most[t] = max(most[t], p.n)
			}
			for _, r := range o.rows {
				if !served[r] {
					served[r] = true
					st.closes = append(st.closes, r)
				}
			}
		}
		for t, n := range most {
			after[t] += n
		}
		own := c.restOf(st.cloth, st.cloth+1)
		rest.Pins += own.Pins
		rest.First += own.First
	}
}
