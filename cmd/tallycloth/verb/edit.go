package verb

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/planner/sizing"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"github.com/spf13/cobra"
)

// editWords are what was typed about a pattern piece that is edited.
type editWords struct {
	size                               string
	only, mirror, pairs, single        bool
	move, notch, notNotch, add, remove []string
	kind, turn, allowance, less        string
	edges                              []string
	name, role, fold                   string
	count                              int
}

// editing is the verb that edits the outlines of a pattern piece.
func (s *session) editing() *cobra.Command {
	var w editWords
	cmd := &cobra.Command{
		Use:   "edit PATTERN PIECE",
		Short: "Edit the outlines of a pattern piece: corners, notches, grain, allowance, how it is cut",
		Long: `Edits the outlines of a pattern piece in all its sizes at the places that correspond, or with
--only in the size alone that places are said on. A place is so far down from the top of the
outline and so far out from its fold or its left edge, grain upright: "30 down 12.5 out". An
edit after which an outline would cross itself is refused, and nothing is changed then.

With --json an object: pattern, piece, sizes (list of size, length_mm, width_mm, notches).`,
		Example: `  tallycloth edit "Fennel tank" Front --move "51 down 24 out: 1 down" --size 4
  tallycloth edit "Fennel tank" Back --notch "40 down 22 out" --notch-kind double
  tallycloth edit "Mill skirt" A --allowance "1 cm" --count 2 --pairs`,
		Args: exactly("the name of a pattern", "a pattern piece, by its letter or name"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.changing(cmd, func(ctx context.Context, l *library) error {
				p, err := l.pickPattern(ctx, args[0])
				if err != nil {
					return err
				}
				q, err := pickPiece(p, args[1])
				if err != nil {
					return err
				}
				now, err := w.edited(p, q, l.fieldUnit())
				if err != nil {
					return err
				}
				if now, err = l.SavePattern(ctx, now); err != nil {
					return err
				}
				q, _ = now.Piece(q.Code)
				return s.tellEdited(l, now, q)
			})
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.size, "size", "", "the size on whose outline places are said (default: the first)")
	f.BoolVar(&w.only, "only", false, "change that size alone")
	f.StringArrayVar(&w.move, "move", nil, `moves the corner nearest to a place: "51 down 24 out: 1 down 0.5 in"`)
	f.StringArrayVar(&w.add, "add-corner", nil, "adds a corner on the outline at a place")
	f.StringArrayVar(&w.remove, "remove-corner", nil, "takes the corner nearest to a place away")
	f.StringArrayVar(&w.notch, "notch", nil, "sets a notch at a place")
	f.StringVar(&w.kind, "notch-kind", "single", "single or double")
	f.StringArrayVar(&w.notNotch, "remove-notch", nil, "takes the notch nearest to a place away")
	f.StringVar(&w.turn, "turn-grain", "", "turns the grain by so many degrees")
	f.BoolVar(&w.mirror, "mirror", false, "mirrors the outline")
	f.StringVar(&w.allowance, "allowance", "", "adds a seam allowance of this width all round, but for the fold")
	f.StringArrayVar(&w.edges, "edge-allowance", nil, `adds another allowance along one edge, from corner to corner, counted clockwise from the top: "3=2 cm", "1=none"`)
	f.StringVar(&w.less, "less-allowance", "", "takes one of this width away")
	f.StringVar(&w.name, "name", "", "another name")
	f.IntVar(&w.count, "count", 0, "how many are cut")
	f.BoolVar(&w.pairs, "pairs", false, "they are cut in mirrored pairs")
	f.BoolVar(&w.single, "no-pairs", false, "they are not cut in pairs")
	f.StringVar(&w.role, "role", "", "what it is cut from: main, contrast, binding, lining")
	f.StringVar(&w.fold, "fold", "", "left or right: that half is on the fold; none: it is drawn whole")
	return cmd
}

// pickPiece finds a pattern piece by its letter, or its name.
func pickPiece(p pattern.Pattern, text string) (pattern.Piece, error) {
	for _, q := range p.Pieces {
		if strings.EqualFold(q.Code, strings.TrimSpace(text)) {
			return q, nil
		}
	}
	return pick("pattern piece", text, p.Pieces, func(q pattern.Piece) string { return q.Name })
}

// edited is the pattern with all that was asked done to a piece.
func (w editWords) edited(p pattern.Pattern, q pattern.Piece, unit measure.Unit) (pattern.Pattern, error) {
	size := w.size
	for _, z := range p.Sizes {
		if _, ok := q.Outlines[z.Name]; ok && size == "" {
			size = z.Name
		}
	}
	size, err := pickSize(p, size)
	if err != nil {
		return p, err
	}
	var sizes []string
	if w.only {
		sizes = []string{size}
	}
	changes, err := w.changes(q, unit)
	if err != nil {
		return p, err
	}
	for _, c := range changes {
		now, _ := p.Piece(q.Code)
		change, err := c(now.Outlines[size].Cut)
		if err != nil {
			return p, err
		}
		if p, err = p.Edited(q.Code, sizes, change); err != nil {
			return p, err
		}
	}
	return p.EditedPiece(q.Code, w.piece)
}

// onCut is a change whose places are said on a cutting line.
type onCut func(shape.Ring) (pattern.Change, error)

// changes are the edits of the outline in their order.
func (w editWords) changes(q pattern.Piece, unit measure.Unit) ([]onCut, error) {
	var out []onCut
	plain := func(c pattern.Change) { out = append(out, func(shape.Ring) (pattern.Change, error) { return c, nil }) }
	for _, text := range w.move {
		out = append(out, func(cut shape.Ring) (pattern.Change, error) { return moveCorner(cut, text, unit) })
	}
	for _, of := range []struct {
		places []string
		change func(shape.Point) pattern.Change
	}{{w.add, pattern.AddPoint}, {w.remove, pattern.RemovePoint}, {w.notNotch, pattern.RemoveNotch},
		{w.notch, func(at shape.Point) pattern.Change { return pattern.AddNotch(at, w.kind) }}} {
		for _, text := range of.places {
			out = append(out, func(cut shape.Ring) (pattern.Change, error) {
				at, err := placeOn(cut, text, unit)
				return sizing.Alike(cut, func(to sizing.ToPlace) pattern.Change { return of.change(to(at)) }), err
			})
		}
	}
	if w.turn != "" {
		var degrees float64
		if _, err := fmt.Sscan(w.turn, &degrees); err != nil || q.OnFold {
			return nil, mistyped("The grain cannot be turned by that", "Say so many degrees, of a piece that is not on the fold")
		}
		plain(pattern.TurnGrain(shape.Angle(math.Round(degrees * 1000))))
	}
	if w.mirror {
		plain(pattern.Mirror)
	}
	return w.allowances(out, q, unit)
}

// allowances are the edits that add an allowance or take one away.
func (w editWords) allowances(out []onCut, q pattern.Piece, unit measure.Unit) ([]onCut, error) {
	wide := map[string]measure.Length{}
	for _, text := range []string{w.allowance, w.less} {
		if text == "" {
			continue
		}
		l, err := measure.ParsePositiveLength(text, unit)
		if err != nil {
			return nil, said("the allowance", err)
		}
		wide[text] = l
	}
	if w.allowance != "" || len(w.edges) > 0 {
		out = append(out, func(cut shape.Ring) (pattern.Change, error) {
			others, err := edgeAllowances(cut, w.edges, unit)
			return sizing.Alike(cut, func(to sizing.ToPlace) pattern.Change {
				return pattern.AddAllowance(wide[w.allowance], pattern.Elsewhere(others, to), q.OnFold)
			}), err
		})
	}
	if w.less != "" {
		out = append(out, func(shape.Ring) (pattern.Change, error) { return pattern.OffsetBy(-wide[w.less], q.OnFold), nil })
	}
	return out, nil
}

// moveCorner moves the corner nearest to a place, as "51 down 24 out: 1 down" says it.
func moveCorner(cut shape.Ring, text string, unit measure.Unit) (pattern.Change, error) {
	where, by, ok := strings.Cut(text, ":")
	if !ok {
		return nil, mistyped("--move does not say how far", `Write it such as "51 down 24 out: 1 down"`)
	}
	at, err := placeOn(cut, where, unit)
	if err != nil {
		return nil, err
	}
	d, err := readSpot(by, unit)
	if err != nil {
		return nil, err
	}
	corners := pattern.Corners(cut, mostCorners)
	best := 0
	for k, i := range corners {
		if away(cut[i], at) < away(cut[corners[best]], at) {
			best = k
		}
	}
	ways := make([]shape.Point, len(corners)) // the others stay, and what lies between goes along
	ways[best] = d
	return sizing.MoveAlike(cut, corners, ways), nil
}

// mostCorners is by how many corners an outline is shaped, as in the window.
const mostCorners = 40

func away(p, q shape.Point) float64 { return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)) }

// placeOn is a place on an outline as a person says it.
func placeOn(cut shape.Ring, text string, unit measure.Unit) (shape.Point, error) {
	if len(cut) == 0 {
		return shape.Point{}, mistyped("It has no outline in that size", "Say another size")
	}
	p, err := readSpot(text, unit)
	return p.Add(cut.Bounds().Min), err
}

// readSpot reads how far down or up and out or in, in any order: "30 cm down, 12.5 out".
func readSpot(text string, unit measure.Unit) (shape.Point, error) {
	var out shape.Point
	var amount []string
	for _, word := range strings.Fields(text) {
		way := strings.TrimRight(strings.ToLower(word), ",")
		to, sign := &out.X, int64(1)
		switch {
		case way == "down":
		case way == "up":
			sign = -1
		case way == "out":
			to = &out.Y
		case way == "in" && len(amount) > 0:
			to, sign = &out.Y, -1
		default:
			amount = append(amount, word)
			continue
		}
		l, err := measure.ParseLength(strings.Join(amount, " "), unit)
		if err != nil {
			return out, said(text, err)
		}
		*to, amount = *to+sign*int64(l), nil
	}
	if len(amount) > 0 || strings.TrimSpace(text) == "" {
		return out, mistyped(fmt.Sprintf("“%s” is no place", strings.TrimSpace(text)), `Write it such as "30 down 12.5 out"`)
	}
	return out, nil
}

// piece changes name, count, use and fold.
func (w editWords) piece(q *pattern.Piece) error {
	if w.name != "" {
		q.Name = w.name
	}
	if w.count > 0 {
		q.Cut = w.count
	}
	q.Pairs = (q.Pairs || w.pairs) && !w.single
	if w.role != "" {
		q.Role = w.role
	}
	switch strings.ToLower(w.fold) {
	case "":
		return nil
	case "left":
		return q.PutOnFold(pattern.LeftSide)
	case "right":
		return q.PutOnFold(pattern.RightSide)
	case "none":
		if q.OnFold {
			return q.OpenOut()
		}
		return nil
	}
	return mistyped("A piece has no such fold", "Say left, right or none")
}

// editedFields is an edited pattern piece in JSON.
type editedFields struct {
	Pattern string       `json:"pattern"`
	Piece   string       `json:"piece"`
	Sizes   []editedSize `json:"sizes"`
}

type editedSize struct {
	Size    string `json:"size"`
	Length  mm     `json:"length_mm"`
	Width   mm     `json:"width_mm"`
	Notches int    `json:"notches"`
}

func (s *session) tellEdited(l *library, p pattern.Pattern, q pattern.Piece) error {
	out := editedFields{p.Name, q.Code + " " + q.Name, []editedSize{}}
	var rows [][]string
	for _, z := range p.Sizes {
		if o, ok := q.Outlines[z.Name]; ok {
			box := o.Cut.Bounds()
			e := editedSize{z.Name, mm(box.Length()), mm(box.Width()), len(o.Notches)}
			out.Sizes = append(out.Sizes, e)
			rows = append(rows, []string{z.Name, l.voice.Fine(measure.Length(e.Length)), l.voice.Fine(measure.Length(e.Width)), fmt.Sprint(e.Notches)})
		}
	}
	return s.answer(out, func(w io.Writer) {
		fmt.Fprintf(w, "%s of %s\n", out.Piece, out.Pattern)
		table(w, "SIZE|LENGTH|WIDTH|NOTCHES", rows)
	})
}
