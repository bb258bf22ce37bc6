package sheet

import (
	"errors"
	"fmt"
	"image/color"
	"image/png"
	"io"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
	"github.com/tdewolff/canvas/renderers/svg"
)

// Printer draws scenes with a font. It may be used by one goroutine at a time.
type Printer struct {
	font    *canvas.Font
	second  []byte                // the file of the wider font, until it is read
	wider   *canvas.Font          // for letters that the first does not have; nil where there is none
	letters map[letterKey]float64 // widths at a line height of 1, as they were asked for
}

// letterKey is a letter in a font.
type letterKey struct {
	font   *canvas.Font
	letter rune
}

// New returns a Printer for TrueType or OpenType fonts: that of sheets, and if there is a second that
// for lines with letters which the first does not have.
func New(font []byte, wider ...[]byte) (*Printer, error) {
	f, err := load(font)
	if err != nil {
		return nil, err
	}
	p := &Printer{font: f, letters: map[letterKey]float64{}}
	if len(wider) > 0 {
		p.second = wider[0]
	}
	return p, nil
}

func load(file []byte) (*canvas.Font, error) {
	f, err := canvas.LoadFont(file, 0, canvas.FontRegular)
	if err != nil {
		return nil, fmt.Errorf("reading the font of sheets: %w", err)
	}
	f.SetFeatures("-liga,-clig") // joined Latin letters could not be copied out again
	prime(f)
	return f, nil
}

// widerFont reads the wider font when the first letter wants it; nil where there is none that can be
// read: boxes stand for its letters then.
func (p *Printer) widerFont() *canvas.Font {
	if p.second != nil {
		if f, err := load(p.second); err == nil {
			p.wider = f
		}
		p.second = nil
	}
	return p.wider
}

// errEmpty says that there is nothing to draw.
var errEmpty = errors.New("there is nothing to draw yet")

// SVG writes a scene in full size: width, height and viewBox are millimetres. The
// letters that occur travel inside. Error: an empty scene, or w's.
func (p *Printer) SVG(w io.Writer, s scene.Scene) error {
	if s.Bounds.Width() <= 0 || s.Bounds.Height() <= 0 {
		return errEmpty
	}
	c := &checked{w: w}
	r := svg.New(c, s.Bounds.Width(), s.Bounds.Height(), &svg.Options{EmbedFonts: true, SubsetFonts: true, SizeUnits: "mm"})
	p.draw(r, s, canvas.Identity.Translate(-s.Bounds.Min.X, -s.Bounds.Min.Y), 1)
	if err := r.Close(); err != nil {
		return fmt.Errorf("writing the drawing: %w", err)
	}
	return c.wrapped("writing the drawing")
}

// checked remembers the first error of a writer, as renderers do not ask.
type checked struct {
	w   io.Writer
	err error
}

func (c *checked) Write(b []byte) (int, error) {
	if c.err != nil {
		return len(b), nil
	}
	_, c.err = c.w.Write(b)
	return len(b), nil
}

func (c *checked) wrapped(doing string) error {
	if c.err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", doing, c.err)
}

// PNG writes a scene as a picture on white whose longer side has so many pixels, at most 8000.
func (p *Printer) PNG(w io.Writer, s scene.Scene, pixels int) error {
	width, height := s.Bounds.Width(), s.Bounds.Height()
	if width <= 0 || height <= 0 {
		return errEmpty
	}
	dpmm := float64(min(max(pixels, 16), 8000)) / max(width, height)
	r := rasterizer.New(width, height, canvas.DPMM(dpmm), canvas.LinearColorSpace{})
	r.RenderPath(canvas.Rectangle(width, height), canvas.Style{Fill: canvas.Paint{Color: canvas.White}}, canvas.Identity)
	p.draw(r, s, canvas.Identity.Translate(-s.Bounds.Min.X, -s.Bounds.Min.Y), 1)
	r.Close()
	if err := png.Encode(w, r); err != nil {
		return fmt.Errorf("writing the picture: %w", err)
	}
	return nil
}

// thin is the style of a line without an area.
func thin(c color.RGBA, width float64) canvas.Style {
	style := canvas.DefaultStyle
	style.Fill, style.Stroke, style.StrokeWidth = canvas.Paint{}, canvas.Paint{Color: c}, width
	return style
}

// draw renders a scene's items: view places scene millimetres on the sheet, scale is
// how many millimetres of the sheet one of them is.
func (p *Printer) draw(r canvas.Renderer, s scene.Scene, view canvas.Matrix, scale float64) {
	// A line thinner than a tenth of a millimetre is lost on paper.
	hair := max(s.Hair, 0.1/scale)
	for _, it := range s.Items {
		if it.Text != "" {
			p.text(r, it.Text, inkOf(it), it.Size, view.Translate(it.At.X, it.At.Y).Rotate(it.Turn), it.Align)
			continue
		}
		shape(r, it, hair, view)
	}
}

// shape renders one shape; only closed lines are filled.
func shape(r canvas.Renderer, it scene.Item, hair float64, view canvas.Matrix) {
	l := lookOf(it)
	open, closed := &canvas.Path{}, &canvas.Path{}
	for _, line := range it.Lines {
		path := open
		if line.Closed {
			path = closed
		}
		for i, q := range line.Points {
			if i == 0 {
				path.MoveTo(q.X, q.Y)
			} else {
				path.LineTo(q.X, q.Y)
			}
		}
		if line.Closed && len(line.Points) > 0 {
			path.Close()
		}
	}
	style := canvas.DefaultStyle
	style.Fill = canvas.Paint{Color: l.fill}
	style.Stroke = canvas.Paint{Color: l.line}
	style.StrokeWidth = l.width * hair
	style.StrokeJoiner = canvas.RoundJoin
	for _, d := range l.dash {
		style.Dashes = append(style.Dashes, d*hair)
	}
	if !closed.Empty() {
		r.RenderPath(closed, style, view)
	}
	if !open.Empty() {
		style.Fill = canvas.Paint{}
		r.RenderPath(open, style, view)
	}
}
