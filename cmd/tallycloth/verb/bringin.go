package verb

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/planner/exchange/outlines"
	"tallycloth/planner/pattern"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// outlineWords are what was typed about outlines to bring in.
type outlineWords struct {
	file, name, kind, size  string
	layers                  bool
	by                      string
	lines                   []string
	pages, cutOff, shared   string
	apart                   bool
	unit, square            string
	asDrawn                 bool
	cut                     []string
	knit, bare              bool
	allowance               string
	byEdge                  []string
	around, along, recovery string
	onlyLines               bool
	grain, plain            []string
}

// broughtFields is what was brought in, in JSON.
type broughtFields struct {
	Pattern  patternFields     `json:"pattern"`
	UnitMM   float64           `json:"unit_mm"`
	Scale    string            `json:"scale_from"`
	Squares  []squareFields    `json:"squares"`
	Warnings []warningFields   `json:"warnings"`
	Marks    []drawnMarkFields `json:"marks"`
	Pages    *pagesFields      `json:"pages,omitempty"`
}

type drawnMarkFields struct {
	Piece  string `json:"piece"`
	Size   string `json:"size"`
	Kind   string `json:"kind"`
	Number int    `json:"number"`
	Taken  bool   `json:"taken"`
	Why    string `json:"why"`
}

type pagesFields struct {
	Count int    `json:"count"`
	Rows  string `json:"rows"`
	Told  string `json:"told"`
	Scans []int  `json:"pictures"`
}

type squareFields struct {
	Side   mm `json:"side_mm"`
	Likely mm `json:"likely_mm"`
}

type warningFields struct {
	Reason string `json:"reason"`
	Name   string `json:"name"`
	What   string `json:"what"`
	Do     string `json:"do"`
}

// bringIn is the verb that makes a pattern of outlines in a drawing.
func (s *session) bringIn() *cobra.Command {
	var w outlineWords
	cmd := &cobra.Command{
		Use:   "bring-in FILE",
		Short: "Make a pattern of outlines in an SVG, DXF or PDF file",
		Long: `Makes a pattern of the closed outlines in an SVG or DXF drawing or a PDF, one for each pattern piece,
at full size, the grain up the page. Give each outline a name in the editor; with --layers each layer
is a size, and outlines of one name, or drawn one in the other without a name, are one pattern piece.

Where the lines of a size are told by something else, --by says by what (layer, colour, dash), and --line
which makes which size, "all" for lines that every size has: --by colour --line "#ff0000=S" --line "#000000=all".
Without --line the layers, colours or dashes of the file are listed and nothing is brought in.

The pages of a PDF are joined by their frames and by lines that go on from page to page, where that can be told;
--apart leaves each by itself, --pages "2 3 4 / 5 6 7" puts them row by row (a dash for an empty place) with --cut-off,
what is cut off each edge (one length, or four: left, right, above, below), and --shared, how far they lie over each other.
Pages that are pictures are told: trace them in the window.

A DXF file for sewn products (ASTM D6673, also called AAMA) brings its pattern whole: pieces
in all sizes with grain, notches, fold and how often they are cut. --cut still changes that;
--size and --layers are not needed then.

What is drawn on a pattern piece is taken for its grain line, notches and dots by plain rules, and what is written
in it for its name: a straight line with an arrow head, or the longest up the piece that ends clear of its edge; short
strokes and small triangles on the outline; small circles and crosses. An edge that a bent arrow points to, or that "fold"
is written at, is on the fold. --cut "Front=1" says that it is not. --grain "Front=2" takes the second straight line
listed, "Front=up" or "Front=across" the page, "Front=1 turned" the other end as the top; --line-only "Front: notch 3"
leaves that one a line, --only-lines all of them.

A square of 10 cm or 4 in in the drawing confirms its size. If it measures something else
nothing is brought in before you say what is right: --square "10 cm" scales the drawing
so that the square has that side, --as-drawn keeps the size of the file.

Outlines that lack their seam allowance (--without-allowance) get the one of --allowance all round, but for a fold. --edge-allowance
"Front: 3=2 cm" says another one for an edge, from corner to corner, counted clockwise from the top, or none: an edge that is bound.

What was not understood is listed, never left out in silence.

With --json an object: pattern (as list patterns shows it), unit_mm (what one unit of the
drawing measures), scale_from (how that was found), squares (list of side_mm, likely_mm),
warnings (list of reason, name, what, do), marks (list of piece, size, kind, number, taken, why), and of a PDF pages: count, rows (as --pages), told, pictures.`,
		Example: `  tallycloth bring-in tank.svg --name "Fennel tank" --size 4 --cut "Front=1 fold" --cut "Back=1 fold" --knit
  tallycloth bring-in blouse.dxf --kind blouse --allowance "1 cm"
  tallycloth bring-in shorts.svg --name Shorts --layers --cut "Front=2 pairs" --stretch-around "20%"
  tallycloth bring-in skirt.pdf --by dash --line "3-1=M" --square "10 cm"`,
		Args: exactly("the name of an SVG, DXF or PDF file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			w.file = args[0]
			return s.adding(cmd, func(ctx context.Context, l *library) error { return s.bring(ctx, l, w) })
		},
	}
	f := cmd.Flags()
	f.StringVar(&w.name, "name", "", "the pattern's name (default: that of the file)")
	f.StringVar(&w.kind, "kind", "", "what it is: tank, tee, shorts, …")
	f.StringVar(&w.size, "size", "one size", "the size drawn")
	f.BoolVar(&w.layers, "layers", false, "each layer of the drawing is a size")
	f.StringVar(&w.by, "by", "", "what tells sizes apart: layer, colour or dash")
	f.StringArrayVar(&w.lines, "line", nil, `the size that lines make: "#ff0000=S", "#000000=all"`)
	f.StringVar(&w.pages, "pages", "", `the pages of a PDF row by row: "2 3 4 / 5 6 -"`)
	f.StringVar(&w.cutOff, "cut-off", "", `what is cut off the edges of each page: "12 mm", or four lengths: "1 cm, 1 cm, 12 mm, 12 mm"`)
	f.StringVar(&w.shared, "shared", "", "how far neighbouring pages lie over each other")
	f.BoolVar(&w.apart, "apart", false, "leave each page of a PDF by itself")
	f.StringVar(&w.unit, "unit", "", "what one unit of the drawing measures, for a file that does not say")
	f.StringVar(&w.square, "square", "", "what the side of the test square really measures")
	f.BoolVar(&w.asDrawn, "as-drawn", false, "the size in the file is right, whatever a square measures")
	f.StringArrayVar(&w.cut, "cut", nil, `how a pattern piece is cut: "Sleeve=2 pairs", "Front=1 fold" (or "1 left-fold", "1 right-fold": which edge), "Pocket=1" (default: once)`)
	f.StringArrayVar(&w.grain, "grain", nil, `which way the grain of a pattern piece runs: "Front=2" (the second line listed), "Front=up", "Front=across", "Front=1 turned"`)
	f.StringArrayVar(&w.plain, "line-only", nil, `a mark that is only a line: "Front: notch 3"`)
	f.BoolVar(&w.onlyLines, "only-lines", false, "take nothing drawn on pattern pieces for a grain line, notch or dot")
	f.BoolVar(&w.knit, "knit", false, "only knits serve")
	f.BoolVar(&w.bare, "without-allowance", false, "the outlines lack their seam allowance")
	f.StringVar(&w.allowance, "allowance", "", "the seam allowance")
	f.StringArrayVar(&w.byEdge, "edge-allowance", nil, `with --without-allowance another allowance along one edge of a pattern piece, counted clockwise from the top: "Front: 3=2 cm", "Front: 1=none"`)
	f.StringVar(&w.around, "stretch-around", "", "how far the fabric must stretch around the body, such as 35%")
	f.StringVar(&w.along, "stretch-along", "", "how far it must stretch up and down")
	f.StringVar(&w.recovery, "recovery", "", "how much of that it must recover")
	return cmd
}

func (s *session) bring(ctx context.Context, l *library, w outlineWords) error {
	d, err := w.read(ctx, l)
	if err != nil {
		return err
	}
	p, marks, warnings, err := w.pattern(l, d)
	if err != nil {
		return err
	}
	if len(p.Pieces) == 0 {
		return mistyped("There is no outline in the drawing that could be a pattern piece", firstDo(append(d.Warnings, warnings...)))
	}
	if p, err = l.SavePattern(ctx, p); err != nil {
		return err
	}
	out := broughtFields{Pattern: fieldsOfPattern(p), UnitMM: d.Scale.Unit, Scale: d.Scale.From, Squares: []squareFields{}, Warnings: []warningFields{}, Marks: []drawnMarkFields{}}
	for _, m := range marks {
		out.Marks = append(out.Marks, drawnMarkFields{m.Piece, m.Size, string(m.Kind), m.Number, m.On, m.Why})
	}
	for _, q := range d.Squares {
		out.Squares = append(out.Squares, squareFields{mm(q.Side), mm(q.Likely)})
	}
	for _, x := range append(d.Warnings, warnings...) {
		out.Warnings = append(out.Warnings, warningFields{string(x.Reason), x.Name, x.What, x.Do})
	}
	if g := d.Pages; g != nil {
		out.Pages = &pagesFields{Count: g.Count, Rows: drawn.FormatRows(g.Plan.Rows), Told: g.Told, Scans: append([]int{}, g.Scans...)}
	}
	return s.answer(out, func(o io.Writer) { l.tellBrought(o, p, d, marks, out.Warnings) })
}

// firstDo is what to do about the first thing that was left out.
func firstDo(warnings []drawn.Warning) string {
	if len(warnings) == 0 {
		return "Draw each pattern piece as a closed outline and save again"
	}
	return say.Sentence(warnings[0].What) + " " + warnings[0].Do
}

// tellSizes says what a pattern has, and how large each piece of it is.
func (l *library) tellSizes(w io.Writer, p pattern.Pattern) {
	fmt.Fprintf(w, "%s has %s in %s.\n", p.Name, say.Count(len(p.Pieces), "pattern piece", "pattern pieces"), say.Count(len(p.Sizes), "size", "sizes"))
	for _, q := range p.Pieces {
		for _, z := range p.Sizes {
			if o, ok := q.Outlines[z.Name]; ok {
				b := o.Cut.Bounds()
				fmt.Fprintf(w, "  %s %s × %s\n", pad(q.Code+" "+q.Name+", "+z.Name, 28), l.voice.Fine(measure.Length(b.Length())), l.voice.Fine(measure.Length(b.Width())))
			}
		}
	}
}

func (l *library) tellBrought(w io.Writer, p pattern.Pattern, d drawn.Drawing, marks []drawn.Mark, warnings []warningFields) {
	l.tellSizes(w, p)
	tellMarks(w, p, marks)
	l.tellEdges(w, p)
	fmt.Fprintln(w, say.Sentence("Read at the size the file gives: "+d.Scale.From))
	if d.Pages != nil && d.Pages.Count > 1 {
		fmt.Fprintln(w, say.Sentence(d.Pages.Told))
		if rows := drawn.FormatRows(d.Pages.Plan.Rows); rows != "" {
			fmt.Fprintln(w, "Pages row by row:", rows)
		}
	}
	for _, q := range d.Squares {
		fmt.Fprintf(w, "A square in it measures %s.\n", l.voice.Fine(q.Side))
	}
	for _, x := range warnings {
		about := x.What
		if x.Name != "" {
			about = x.Name + ": " + x.What
		}
		fmt.Fprintln(w, "!", say.Sentence(about), say.Sentence(x.Do))
	}
}

// read reads the drawing at the size that was confirmed, and picks its sizes.
func (w outlineWords) read(ctx context.Context, l *library) (drawn.Drawing, error) {
	o := outlines.Options{}
	if w.unit != "" {
		u, err := measure.ParsePositiveLength(w.unit, measure.Millimetre)
		if err != nil {
			return drawn.Drawing{}, said("--unit", err)
		}
		o.Unit = u.Millimetres()
	}
	var err error
	if o.Plan, err = w.plan(l); err != nil {
		return drawn.Drawing{}, err
	}
	d, err := w.sized(ctx, l, o)
	if err != nil || w.by == "" {
		return d, err
	}
	return w.picked(ctx, d)
}

// sized reads the drawing at the size that was confirmed.
func (w outlineWords) sized(ctx context.Context, l *library, o outlines.Options) (drawn.Drawing, error) {
	d, err := readDrawing(ctx, w.file, o)
	switch {
	case errors.Is(err, drawn.ErrNoUnits):
		return d, mistyped(whatOf(err), `Save it with the document's unit set to millimetres or inches, or say what one unit measures, such as --unit "1 mm"`)
	case err != nil:
		return d, err
	case w.asDrawn || len(d.Squares) == 0:
		return d, nil
	}
	q := d.Squares[0]
	if w.square == "" {
		return d, l.sure(q)
	}
	side, err := measure.ParsePositiveLength(w.square, l.fieldUnit())
	if err != nil {
		return d, said("--square", err)
	}
	o.Unit = d.UnitFor(q, side)
	return readDrawing(ctx, w.file, o)
}

// whatOf is what an error says happened, without what to do about it.
func whatOf(err error) string {
	var e *stash.Error
	if errors.As(err, &e) {
		return e.What
	}
	return err.Error()
}

// sure refuses a drawing whose test square is near a usual size and not of it: half a
// per cent is what a line drawn by hand may be off.
func (l *library) sure(q drawn.Square) error {
	off := q.Side - q.Likely
	if q.Likely == 0 || max(off, -off) <= q.Likely/200 {
		return nil
	}
	side, likely := l.voice.Fine(q.Side), l.voice.Fine(q.Likely)
	return mistyped(fmt.Sprintf("A square in the drawing measures %s, and a test square is usually %s", side, likely),
		fmt.Sprintf("Say --square %q if that is its side, or --as-drawn if the size of the file is right", likely))
}

func readDrawing(ctx context.Context, file string, o outlines.Options) (drawn.Drawing, error) {
	f, err := os.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return drawn.Drawing{}, mistyped("There is no file "+file, "Look at its name and folder")
	}
	if err != nil {
		return drawn.Drawing{}, &stash.Error{Kind: stash.Invalid, What: "The file " + file + " cannot be opened", Do: "Look whether you may read it", Err: err}
	}
	defer f.Close()
	return outlines.Read(ctx, f, file, o)
}

// pattern makes the pattern of a drawing as it was typed.
func (w outlineWords) pattern(l *library, d drawn.Drawing) (pattern.Pattern, []drawn.Mark, []drawn.Warning, error) {
	c, err := w.corrected(d, drawn.Choice{Size: w.size, Layers: w.layers || w.by != "", OnlyLines: w.onlyLines})
	if err != nil {
		return pattern.Pattern{}, nil, nil, err
	}
	p, marks, warnings := d.MarkedPattern(c)
	w.names(&p)
	if err := w.asks(l, &p); err != nil {
		return p, marks, warnings, err
	}
	if err := w.recognisedFolds(&p, marks); err != nil {
		return p, marks, warnings, err
	}
	if err := w.cuts(&p); err != nil {
		return p, marks, warnings, err
	}
	return p, marks, warnings, w.alongEdges(l, &p)
}

// names takes the names that were typed; else those the file gives, or its own.
func (w outlineWords) names(p *pattern.Pattern) {
	if w.name != "" {
		p.Name = w.name
	}
	if w.kind != "" {
		p.Kind = w.kind
	}
	if p.Name == "" {
		p.Name = strings.TrimSuffix(filepath.Base(w.file), filepath.Ext(w.file))
	}
}

// asks reads what the pattern asks of its fabric, and its seam allowance.
func (w outlineWords) asks(l *library, p *pattern.Pattern) error {
	r := &p.Roles[0]
	r.Knit = w.knit
	for _, v := range []struct {
		flag, text string
		into       *measure.Percent
	}{{"--stretch-around", w.around, &r.StretchAround}, {"--stretch-along", w.along, &r.StretchAlong}, {"--recovery", w.recovery, &r.Recovery}} {
		if v.text == "" {
			continue
		}
		q, err := measure.ParsePercent(v.text)
		if err != nil {
			return said(v.flag, err)
		}
		*v.into = q
	}
	if w.allowance != "" {
		a, err := measure.ParsePositiveLength(w.allowance, l.fieldUnit())
		if err != nil {
			return said("--allowance", err)
		}
		p.SeamAllowance = a
	}
	for i := range p.Pieces {
		p.Pieces[i].WithoutAllowance = p.Pieces[i].WithoutAllowance || w.bare
	}
	return nil
}

// cuts reads how pattern pieces are cut.
func (w outlineWords) cuts(p *pattern.Pattern) error {
	for _, text := range w.cut {
		name, how, _ := strings.Cut(text, "=")
		var n int
		var way string
		if _, err := fmt.Sscanf(how+" once", "%d %s", &n, &way); err != nil || n < 1 || !slices.Contains([]string{"once", "pairs", "pair", "fold", "left-fold", "right-fold"}, way) {
			return mistyped(fmt.Sprintf("--cut %q is not understood", text), `Write for instance "Sleeve=2 pairs", "Front=1 fold" or "Pocket=1"; "1 left-fold" and "1 right-fold" say which edge lies on the fold`)
		}
		piece, err := pick("pattern piece", name, p.Pieces, func(q pattern.Piece) string { return q.Name })
		if err != nil {
			return err
		}
		i := slices.IndexFunc(p.Pieces, func(q pattern.Piece) bool { return q.Code == piece.Code })
		p.Pieces[i].Cut, p.Pieces[i].Pairs = n, strings.HasPrefix(way, "pair")
		if side, ok := foldSides[way]; ok {
			if err := p.Pieces[i].PutOnFold(side); err != nil {
				return err
			}
		}
	}
	return nil
}

// foldSides are the edges of a half that may lie on the fold.
var foldSides = map[string]pattern.Side{"fold": pattern.EitherSide, "left-fold": pattern.LeftSide, "right-fold": pattern.RightSide}
