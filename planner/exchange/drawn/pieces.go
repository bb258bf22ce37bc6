package drawn

import (
	"fmt"
	"strings"

	"tallycloth/planner/pattern"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

// Choice says how a drawing becomes pattern pieces.
type Choice struct {
	Role string // what the pieces are cut from; "" is pattern.Main
	// Size is the size of everything drawn, unless Sizes names it by layer.
	Size string
	// Sizes gives the size drawn in a layer or group, by its name. Outlines of the
	// same name in several sizes are one piece.
	Sizes map[string]string
	// Layers says for Pattern that each layer is a size, by its name.
	Layers bool
	// Leave are shapes not to take, by index: test squares, frames.
	Leave []int
	// Smallest is the least area of a pattern piece; smaller outlines outside all
	// others are left out. Zero takes 25 cm².
	Smallest measure.Area
	// OnlyLines takes nothing drawn on a piece for a grain line, a notch or a dot.
	OnlyLines bool
	// Plain are marks that are only lines, as the person said.
	Plain map[MarkName]bool
	// Grain says which way the grain of a piece runs, by its code.
	Grain map[string]GrainWish
}

const smallestPiece measure.Area = 25e8 // 25 cm²

// ToPieces turns the usable outlines of a drawing into pattern pieces, each cut once; what is drawn
// on one becomes its grain line, notches, dots and lines, by the rules of this package. The
// warnings name what was left out and what to look at. Shapes named in Leave are not
// mentioned. An outline that only the editor named (path12) is called Piece and its number.
func (d Drawing) ToPieces(c Choice) ([]pattern.Piece, []Warning) {
	b := d.pieces(c)
	return b.pieces, b.warnings
}

func (d Drawing) pieces(c Choice) *builder {
	b := &builder{drawing: d, choice: c, byName: map[string]int{}, at: map[int]place{}, spots: map[int]shape.Box{}, leave: map[int]bool{}, on: map[int][]int{}}
	if b.choice.Role == "" {
		b.choice.Role = pattern.Main
	}
	if b.choice.Smallest == 0 {
		b.choice.Smallest = smallestPiece
	}
	for _, i := range c.Leave {
		b.leave[i] = true
	}
	b.boxes = make([]shape.Box, len(d.Shapes))
	for i, f := range d.Shapes {
		if !b.leave[i] && b.isPiece(i, f) {
			b.boxes[i] = f.Ring.Bounds()
			b.piece(i, f)
		}
	}
	for i, f := range d.Shapes {
		if !b.leave[i] && !b.isPiece(i, f) {
			b.line(i, f)
		}
	}
	if more := b.lines - mostLines; more > 0 {
		b.warn(OpenPath, "", fmt.Sprintf("%s left out outside all pieces", counted(more, "more open line was", "more open lines were")), joinEnds)
	}
	var all []seen
	var words map[int]foldSign
	if !c.OnlyLines {
		words = b.foldWords()
	}
	for i := range d.Shapes {
		if _, ok := b.at[i]; ok {
			all = append(all, b.recognise(i, b.on[i], words))
		}
	}
	b.finishAll(all)
	return b
}

// place is where an outline went: piece and size.
type place struct {
	piece int
	size  string
}

type builder struct {
	drawing  Drawing
	choice   Choice
	leave    map[int]bool
	pieces   []pattern.Piece
	byName   map[string]int
	at       map[int]place
	spots    map[int]shape.Box // of pieces without a name of their own
	boxes    []shape.Box       // of outlines of pieces
	on       map[int][]int     // what is drawn on each outline
	marks    []Mark
	lines    int // open ones outside all pieces
	warnings []Warning
}

func (b *builder) warn(r Reason, name, what, do string) {
	b.warnings = append(b.warnings, Warning{Reason: r, Name: name, What: what, Do: do})
}

func (b *builder) isPiece(i int, f Found) bool {
	return f.Usable() && (f.Inside < 0 || b.leave[f.Inside]) && f.Area >= b.choice.Smallest
}

// size is the one of the innermost group that has one.
func (b *builder) size(f Found) string {
	for k := len(f.Group) - 1; k >= 0; k-- {
		if s, ok := b.choice.Sizes[f.Group[k]]; ok {
			return s
		}
	}
	return b.choice.Size
}

// piece adds an outline as a new piece, or as another size of one of the same name.
func (b *builder) piece(i int, f Found) {
	name, size := f.Name, b.size(f)
	unnamed := name == "" || Automatic(name)
	if unnamed {
		name = fmt.Sprintf("Piece %d", len(b.pieces)+1)
	}
	k, known := b.byName[name]
	if unnamed {
		if same := b.sameSpot(f.Ring.Bounds(), size); same >= 0 {
			k, known = same, true
		}
	}
	if known {
		if _, taken := b.pieces[k].Outlines[size]; taken {
			b.warn(Double, name, "two outlines have this name in one size, so they became two pieces", "Give every piece a name of its own in the editor.")
			known = false
		}
	}
	if !known {
		k = len(b.pieces)
		code := pattern.Letters(k)
		own := name // what this program writes begins with the letter of the piece
		if rest := strings.TrimPrefix(name, code+" "); rest != "" {
			own = rest
		}
		b.pieces = append(b.pieces, pattern.Piece{Code: code, Name: own, Role: b.choice.Role, Cut: 1, Outlines: map[string]pattern.Outline{}})
		b.byName[name] = k
	}
	if unnamed {
		b.spots[k] = f.Ring.Bounds()
	}
	b.pieces[k].Outlines[size] = pattern.Outline{} // taken
	b.at[i] = place{k, size}
}

// line adds a shape to the piece it lies in, or says why it was left out.
func (b *builder) line(i int, f Found) {
	host := b.host(f)
	if host < 0 {
		host = b.touched(f)
	}
	switch {
	case host >= 0:
		b.on[host] = append(b.on[host], i)
	case f.Ring == nil && b.drawing.Pages != nil: // told once for all of them
	case f.Ring == nil:
		b.openLine(f)
	case f.Fault == nil && b.drawing.Pages != nil: // small marks beside the pieces are usual there
	case f.Fault != nil:
		b.warn(Crossing, f.Name, fmt.Sprintf("it was left out: %v", f.Fault), "Move the points there apart in the editor and save again.")
	default:
		b.warn(NoOutline, f.Name, "it is too small for a pattern piece and was left out", "Nothing to do if it is a mark.")
	}
}

// mostLines are told one by one.
const (
	mostLines = 5
	joinEnds  = "Join its ends in the editor if it is an outline."
)

// openLine tells of an open line outside all pieces.
func (b *builder) openLine(f Found) {
	if b.lines++; b.lines > mostLines {
		return
	}
	first, last := f.Open[0], f.Open[len(f.Open)-1]
	what := fmt.Sprintf("its outline is open, so it was left out: its ends are %s apart", mm(int64(apart(first, last))))
	if len(f.Open) == 2 {
		what = "it is a single line outside all pieces and was left out"
	}
	b.warnings = append(b.warnings, Warning{Reason: OpenPath, Name: f.Name, What: what, Do: joinEnds, At: onPage(last), Placed: true})
}

// host is the outline of the piece around a shape, through outlines that are lines themselves; −1 for none.
func (b *builder) host(f Found) int {
	for k := f.Inside; k >= 0; k = b.drawing.Shapes[k].Inside {
		if _, ok := b.at[k]; ok {
			return k
		}
	}
	return -1
}
