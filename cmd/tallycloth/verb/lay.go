package verb

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"tallycloth/assets"
	"tallycloth/planner"
	"tallycloth/planner/exchange/dxf"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/match"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
)

// laidFields is a layout in JSON.
type laidFields struct {
	Finding findingFields `json:"finding"`
	Pieces  []placeFields `json:"pieces"`
	Files   []string      `json:"files"`
}

// placeFields says where a pattern piece lies on the open cloth.
type placeFields struct {
	Code     string       `json:"code"`
	Name     string       `json:"name"`
	UsedFor  string       `json:"used_for"`
	Copy     int          `json:"copy"`
	Part     int          `json:"part"`
	Layer    string       `json:"layer"`
	Turned   float64      `json:"turned_degrees"`
	Mirrored bool         `json:"mirrored"`
	Outline  [][2]float64 `json:"outline_mm"`
}

func fieldsOfPlace(p match.PlacedPiece) placeFields {
	f := placeFields{
		Code: p.Piece, Name: p.Name, UsedFor: p.Role, Copy: p.Copy, Part: p.Part, Layer: "upper",
		Turned: float64(p.Place.Angle) / 1000, Mirrored: p.Place.Mirror, Outline: ringOf(p.Outline),
	}
	if p.Layer == 1 {
		f.Layer = "under"
	}
	return f
}

// lay is the verb that draws a layout.
func (s *session) lay() *cobra.Command {
	var q question
	var to []string
	cmd := &cobra.Command{
		Use:   "lay CODE",
		Short: "Draw how the pattern pieces lie on a cloth",
		Long: `Lays the pattern pieces on what is free of one cloth, checks the layout, and draws it to
scale as it lies on the open cloth: selvedges, folds, what is reserved already, and every
pattern piece with its grain arrow and notches. The end of the file's name says how: .svg
and .png are pictures, .dxf is a drawing at full size with a layer for each kind of line,
.pdf is a sheet for the printer. Nothing is reserved.

With --json an object: finding (as check gives it), pieces (list of code, name, used_for,
copy, part, layer ("upper" or "under"), turned_degrees, mirrored, outline_mm (points of x
along the cloth from its cut end and y from a selvedge)), files. The exit code is 3, and
no file is written, when the cloth is not enough.`,
		Example: "  tallycloth lay A17 --pattern \"Fennel tank\" --size 4 --to tank.pdf",
		Args:    exactly("the code of a cloth"),
		RunE: func(cmd *cobra.Command, args []string) error {
			for _, file := range to {
				if _, err := writerFor(file); err != nil {
					return err
				}
			}
			return s.reading(cmd, func(ctx context.Context, l *library) error { return s.layOn(ctx, l, args[0], q, to) })
		},
	}
	q.flags(cmd)
	q.garmentFlag(cmd)
	cmd.Flags().StringSliceVar(&to, "to", nil, "files to draw it into: .svg, .dxf, .png or .pdf")
	return cmd
}

func (s *session) layOn(ctx context.Context, l *library, code string, q question, to []string) error {
	search, p, err := q.search(ctx, l)
	if err != nil {
		return err
	}
	c, err := l.pickCloth(ctx, code)
	if err != nil {
		return err
	}
	f, err := l.CheckCloth(ctx, c.Cloth.ID, search)
	if err != nil {
		return err
	}
	out := laidFields{Finding: l.fieldsOfFinding(f), Pieces: []placeFields{}, Files: []string{}}
	if f.Verdict.Layout == nil {
		return s.no(out, l, f)
	}
	garments, err := l.garmentNames(ctx)
	if err != nil {
		return err
	}
	d := drawing{cloth: c, pattern: p, size: search.Size, layout: *f.Verdict.Layout, garments: garments, units: l.settings.Units}
	for _, piece := range d.layout.Pieces {
		out.Pieces = append(out.Pieces, fieldsOfPlace(piece))
	}
	page := sheet.Page{
		Title: fmt.Sprintf("%s, size %s, on %s", p.Name, search.Size, c.Cloth.Code), Scene: d.scene(),
		Notes: []string{c.Fabric.Name + ", " + l.clothSize(c.Cloth), l.line(f)},
	}
	for _, file := range to {
		if err := draw(page, file); err != nil {
			return err
		}
		out.Files = append(out.Files, file)
	}
	return s.answer(out, func(w io.Writer) { l.tellLayout(w, f, out) })
}

// tellLayout says in words what lies where.
func (l *library) tellLayout(w io.Writer, f planner.Finding, out laidFields) {
	fmt.Fprintln(w, l.line(f))
	for _, p := range f.Verdict.Layout.Pieces {
		at := p.Outline.Bounds().Min
		fmt.Fprintf(w, "  %s from %s along, %s across\n", pad(p.Piece+" "+p.Name, 24), l.voice.Fine(measure.Length(at.X)), l.voice.Fine(measure.Length(at.Y)))
	}
	for _, file := range out.Files {
		fmt.Fprintln(w, "Drawn in", file)
	}
}

// writerFor returns how a file is drawn, by the end of its name.
func writerFor(file string) (func(*sheet.Printer, io.Writer, sheet.Page) error, error) {
	const pixels = 1600
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg":
		return func(p *sheet.Printer, w io.Writer, page sheet.Page) error { return p.SVG(w, page.Scene) }, nil
	case ".dxf":
		return func(_ *sheet.Printer, w io.Writer, page sheet.Page) error {
			return dxf.WriteScene(w, page.Scene, sheet.LineWidth)
		}, nil
	case ".png":
		return func(p *sheet.Printer, w io.Writer, page sheet.Page) error { return p.PNG(w, page.Scene, pixels) }, nil
	case ".pdf":
		return func(p *sheet.Printer, w io.Writer, page sheet.Page) error {
			return p.PDF(w, sheet.A4, []sheet.Page{page})
		}, nil
	}
	return nil, mistyped(fmt.Sprintf("%q has no ending that says how to draw it", file), "End the name in .svg, .dxf, .png or .pdf")
}

// draw writes a page into a file that is there whole or not at all.
func draw(page sheet.Page, file string) error {
	printer, err := sheet.New(assets.FontRegular, assets.FontWider)
	if err != nil {
		return err
	}
	write, err := writerFor(file)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := write(printer, &b, page); err != nil {
		return fmt.Errorf("drawing %s: %w", file, err)
	}
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		return fmt.Errorf("writing %s: %w", file, err)
	}
	return nil
}
