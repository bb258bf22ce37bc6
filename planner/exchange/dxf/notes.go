package dxf

import (
	"fmt"
	"slices"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// notes gathers warnings, those of one wording in one: files hold the same pattern
// piece in many sizes.
type notes struct {
	order []*note
	by    map[[2]string]*note
}

type note struct {
	drawn.Warning
	about []string
}

const (
	mostNotes = 300
	mostNamed = 4
	mostAbout = 100 // are counted
)

// add notes something about a piece or an object, "" for the file as a whole.
func (n *notes) add(r drawn.Reason, about, what, do string) {
	if n.by == nil {
		n.by = map[[2]string]*note{}
	}
	k := [2]string{string(r), what}
	x := n.by[k]
	if x == nil {
		if len(n.order) == mostNotes {
			return
		}
		x = &note{Warning: drawn.Warning{Reason: r, What: what, Do: do}}
		n.by[k] = x
		n.order = append(n.order, x)
	}
	if about != "" && !slices.Contains(x.about, about) && len(x.about) < mostAbout {
		x.about = append(x.about, about)
	}
}

// warnings are the notes in the order they were first made.
func (n *notes) warnings() []drawn.Warning {
	var out []drawn.Warning
	for _, x := range n.order {
		w := x.Warning
		w.Name = strings.Join(x.about[:min(len(x.about), mostNamed)], ", ")
		if more := len(x.about) - mostNamed; len(x.about) == mostAbout {
			w.Name += " and many more"
		} else if more > 0 {
			w.Name += fmt.Sprintf(" and %d more", more)
		}
		out = append(out, w)
	}
	if len(n.order) == mostNotes {
		out = append(out, drawn.Warning{Reason: drawn.NotRead, What: "there may be more warnings than these", Do: "Tidy the drawing and save it again."})
	}
	return out
}
