package svg

import (
	"fmt"
	"math"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// errNoUnits is for a drawing that does not say how large it is.
var errNoUnits = &stash.Error{
	Err:  drawn.ErrNoUnits,
	Kind: stash.Invalid,
	What: "the drawing does not say how large it is: its width and height have no unit such as mm or in",
	Do:   "Set the document's unit to millimetres or inches in the editor and save again, or say what one unit of the drawing measures.",
}

// pixel is 1/96 in in mm: CSS fixes 96 pixels to the inch (CSS Values and Units
// Level 3, section 6.2).
const pixel = 25.4 / 96

// unitSizes are the absolute units of CSS in mm.
var unitSizes = map[string]float64{
	"mm": 1, "cm": 10, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "px": pixel, "q": 0.25,
}

// Most and least that one unit of a drawing may measure, in mm; and the largest page.
const (
	leastUnit, mostUnit = 1e-6, 1e5
	mostPage            = 1e6
)

// extent reads "210mm" or "12": the number and its unit in mm, 0 when it has none.
func extent(text string) (value, unit float64, ok bool) {
	s := scanner{text: strings.TrimSpace(text)}
	value, ok = s.number()
	rest := strings.ToLower(strings.TrimSpace(s.text[s.at:]))
	if !ok || rest == "" {
		return value, 0, ok
	}
	unit, ok = unitSizes[rest]
	return value, unit, ok
}

// viewBox reads the four numbers of a view box.
func viewBox(text string) (box [4]float64, ok bool) {
	s := scanner{text: text}
	s.space()
	for i := range box {
		if box[i], ok = s.number(); !ok {
			return box, false
		}
		s.comma()
	}
	return box, s.done() && box[2] > 0 && box[3] > 0
}

// page works out the map from the drawing's units to mm.
func (w *walker) page(root *node, o Options) (matrix, drawn.Scale, error) {
	width, wu, okW := extent(root.attr("width"))
	height, hu, okH := extent(root.attr("height"))
	box, boxed := viewBox(root.attr("viewBox"))
	okW, okH = okW && wu > 0 && width > 0, okH && hu > 0 && height > 0
	switch {
	case o.Unit > 0:
		return given(o.Unit, box, boxed)
	case !okW && !okH:
		return identity, drawn.Scale{}, errNoUnits
	case width*wu > mostPage || height*hu > mostPage:
		return identity, drawn.Scale{}, invalid("the page of the drawing is more than a kilometre large", "Check its width and height in the editor.")
	}
	s := drawn.Scale{Width: micro(width * wu), Height: micro(height * hu)}
	if !boxed {
		s.Unit = pixel
		s.From = "one unit is 1/96 in, as there is no view box"
		return matrix{a: pixel, d: pixel}, s, sane(pixel)
	}
	kx, ky := width*wu/box[2], height*hu/box[3]
	switch {
	case !okW:
		kx, s.From, s.Width = ky, "height "+root.attr("height"), 0
	case !okH:
		ky, s.From, s.Height = kx, "width "+root.attr("width"), 0
	default:
		s.From = fmt.Sprintf("width %s, height %s", root.attr("width"), root.attr("height"))
	}
	if math.Abs(kx-ky) > 1e-3*math.Max(kx, ky) {
		if root.attr("preserveAspectRatio") != "none" {
			kx = math.Min(kx, ky)
			ky = kx
		}
		w.warn(drawn.Warning{Reason: drawn.Proportions, What: "width and height of the page do not fit its view box, so the size is doubtful",
			Do: "Check it against a square of known size."})
	}
	s.Unit = kx
	m := matrix{a: kx, d: ky}.then(shift(-box[0], -box[1]))
	return m, s, sane(kx, ky)
}

func given(unit float64, box [4]float64, boxed bool) (matrix, drawn.Scale, error) {
	m := matrix{a: unit, d: unit}
	if boxed {
		m = m.then(shift(-box[0], -box[1]))
	}
	return m, drawn.Scale{Unit: unit, Given: true, From: "one unit as you said"}, sane(unit)
}

// sane refuses scales by which nothing can be cut.
func sane(units ...float64) error {
	for _, u := range units {
		if !(u >= leastUnit && u <= mostUnit) {
			return invalid(fmt.Sprintf("one unit of the drawing would measure %g mm", u), "Check width, height and view box of the document in the editor.")
		}
	}
	return nil
}

// micro rounds mm to a Length.
func micro(mm float64) measure.Length { return measure.Length(math.Round(mm * 1000)) }

// within is the map of a nested svg or symbol element with its place and view box.
func within(n *node, width, height string) (matrix, error) {
	v, err := n.coordinates("x", "y")
	if err != nil {
		return identity, err
	}
	m := shift(v[0], v[1])
	box, boxed := viewBox(n.attr("viewBox"))
	if !boxed {
		return m, nil
	}
	wide, err := userUnits(width)
	if err != nil {
		return identity, err
	}
	tall, err := userUnits(height)
	if err != nil {
		return identity, err
	}
	if wide <= 0 || tall <= 0 {
		return identity, fmt.Errorf("it has a view box but no width and height of its own")
	}
	// The drawing lies in the middle of its place: xMidYMid meet, the usual rule.
	k := math.Min(wide/box[2], tall/box[3])
	m = m.then(shift((wide-k*box[2])/2, (tall-k*box[3])/2))
	return m.then(matrix{a: k, d: k}).then(shift(-box[0], -box[1])), nil
}

// userUnits reads a length in units of the drawing: nothing is 0, a bare number is
// itself, CSS units count with a pixel as one. Percentages and units that depend on
// letters are not understood.
func userUnits(text string) (float64, error) {
	if text == "" || text == "auto" {
		return 0, nil
	}
	v, unit, ok := extent(text)
	if !ok {
		return 0, fmt.Errorf("its measure %q is not understood", shorten(text))
	}
	if unit > 0 {
		v *= unit / pixel
	}
	return v, nil
}

// coordinates reads attributes in units of the drawing, 0 for missing ones.
func (n *node) coordinates(names ...string) ([]float64, error) {
	out := make([]float64, len(names))
	for i, name := range names {
		v, err := userUnits(n.attr(name))
		if err != nil {
			return nil, err
		}
		out[i] = v
	}
	return out, nil
}
