package pdf

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"sync"

	"tallycloth/planner/exchange/drawn"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

// File is what the pages of a PDF hold.
type File struct {
	Pages []Page
	// Off are layers that are switched off in the file; they are read all the same.
	Off     []string
	Clipped bool // something is clipped by a shape that is no rectangle
	limits  drawn.Limits
}

// Page is one page as it is seen, turned the way it is shown.
type Page struct {
	Number        int     // from 1
	Width, Height float64 // mm
	Picture       float64 // share of the page that pictures cover, 0 to 1
	Words         int     // pieces of text
	lines         []line
	words         []wordOn
	unread        int // pieces of text whose letters are not known
}

// Lines is how many lines and outlines the page has.
func (p Page) Lines() int { return len(p.lines) }

// Scan says whether the page is a picture, not a drawing.
func (p Page) Scan() bool { return p.Picture > 0.5 && len(p.lines) < 20 }

// style is how a line is drawn.
type style struct {
	layer string
	line  drawn.Line
}

// line is a run of points on a page in mm, x to the right, y down from its top left corner.
type line struct {
	points []drawn.Place
	closed bool
	style  style
}

// DefaultLimits are far above what the pages of a pattern need.
func DefaultLimits() drawn.Limits {
	return drawn.Limits{Bytes: 100 << 20, Elements: 4_000_000, Depth: 20, Points: 3_000_000, Outline: 30_000}
}

// mostPages a file may have.
const mostPages = 400

const (
	saveAgain = "Open it in a PDF viewer, print it into a new PDF file, and bring that in."
	asPDF     = "PDF"
)

// Read reads a PDF. Errors are a *stash.Error that says what to do: not a PDF, damaged, locked
// with a password, past a limit. A context that ends comes back wrapped.
func Read(ctx context.Context, r io.Reader, lim drawn.Limits) (File, error) {
	lim = lim.Or(DefaultLimits())
	b, head, err := drawn.Open(r, lim, asPDF)
	if err != nil {
		return File{}, err
	}
	if !bytes.Contains(head, []byte("%PDF-")) {
		return File{}, drawn.Unsupported("the file is not a PDF", "Choose another file, or save the pattern again as PDF.")
	}
	all, err := io.ReadAll(b)
	switch {
	case errors.Is(err, drawn.ErrBytes):
		return File{}, lim.TooLarge()
	case err != nil:
		return File{}, fmt.Errorf("reading the PDF: %w", err)
	}
	x, err := open(ctx, all)
	if err != nil {
		return File{}, err
	}
	return pagesOf(ctx, x, lim)
}

// setUp keeps the library from writing a configuration of its own into the person's home.
var setUp = sync.OnceFunc(func() { model.ConfigPath = "disable" })

// open parses the file's objects. The library panics on some damage, which is an error here.
func open(ctx context.Context, all []byte) (x *model.Context, err error) {
	setUp()
	conf := model.NewDefaultConfiguration()
	conf.Cmd = model.EXTRACTCONTENT
	conf.Offline = true
	conf.Limits.MaxDecodeBytes = 128 << 20
	conf.Limits.MaxObjectCount = 1_000_000
	conf.Limits.MaxObjectStreamCount = 100_000
	defer func() {
		if p := recover(); p != nil {
			x, err = nil, damaged()
		}
	}()
	x, err = pdfcpu.ReadWithContext(ctx, bytes.NewReader(all), conf)
	switch {
	case err == nil:
	case ctx.Err() != nil:
		return nil, fmt.Errorf("reading the PDF: %w", ctx.Err())
	case errors.Is(err, pdfcpu.ErrWrongPassword):
		return nil, drawn.Unsupported("the PDF is locked with a password", "Open it in a PDF viewer with the password, print it into a new PDF file, and bring that in.")
	default:
		return nil, damaged()
	}
	if err := x.EnsurePageCount(); err != nil || x.PageCount < 1 {
		return nil, damaged()
	}
	if x.PageCount > mostPages {
		return nil, drawn.Unsupported(fmt.Sprintf("the PDF has %d pages, more than %d", x.PageCount, mostPages), "Save only the pages with pattern pieces.")
	}
	return x, nil
}

func damaged() error {
	return drawn.Unsupported("the PDF is damaged or of a kind that is not understood", saveAgain)
}
