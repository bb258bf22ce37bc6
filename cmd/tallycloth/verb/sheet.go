package verb

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/paper"
	"tallycloth/ui/records"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// sheetWords are what was typed about a cutting sheet.
type sheetWords struct {
	question
	cloth, batch, to, paper    string
	full, onePage              bool
	cutList, byCloth, project  bool
	pieces                     []string
	weight, gridStep, overlaps string
}

// sheetFields is a cutting sheet in JSON.
type sheetFields struct {
	File   string        `json:"file"`
	Sheets int           `json:"sheets"`
	Paper  string        `json:"paper"`
	Arrows []arrowFields `json:"arrows"`
}

// arrowFields is a grain arrow in JSON.
type arrowFields struct {
	Code   string     `json:"code"`
	Number int        `json:"number"`
	Name   string     `json:"name"`
	Size   string     `json:"size"`
	Foot   [2]float64 `json:"foot_mm"`
	Head   [2]float64 `json:"head_mm"`
	From   string     `json:"across_from"`
}

// sheet is the verb that puts cutting day on paper.
func (s *session) sheet() *cobra.Command {
	var w sheetWords
	cmd := &cobra.Command{
		Use:   "sheet [GARMENT]",
		Short: "Write the cutting sheet of a garment, a cloth or a batch, other lists, or drawings in full size",
		Long: `Writes what lies beside the cloth on cutting day, from what is reserved: the layout to
scale, where to chalk both ends of every grain arrow, marks to transfer, stitches and
needle, allowances, strips, notions, what will be left, with boxes to tick. With --cloth
alone it is the sheet of that cloth, for everything reserved on it; with --batch that of
a batch that is kept, by its plan.

Other lists: --cut-list has every pattern piece cloth by cloth with its count; --by-cloth,
with --batch, every cloth with its layout and garments; --project all that is known of a
garment, with photos, measurements, the order of work and what it costs.

With --full it is in full size instead, tiled over sheets that overlap, with marks, a map
and a square to check the printer by; with --one-page, or where the file ends in .svg or
.dxf, on one page for a projector or a plotter. With --pattern and --size it draws pattern pieces
instead of a layout, all of them or those of --piece. A file that is there already is
left alone.

With --json an object: file, sheets (how many), paper, arrows (list of code of the cloth,
number, name, size, foot_mm and head_mm (both ends of the grain arrow, along from the
trued end and across from the edge named), across_from).`,
		Example: `  tallycloth sheet "Morning tank" --to tank.pdf
  tallycloth sheet --cloth K7PD --paper letter --to shelf.pdf
  tallycloth sheet "Morning tank" --full --paper a3 --to layout.pdf
  tallycloth sheet --batch "spring class" --by-cloth --to class.pdf
  tallycloth sheet "Morning tank" --project --to project.pdf
  tallycloth sheet --pattern "Fennel tank" --size 4 --piece A --full --to front.svg`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return mistyped("More than one garment is named", "Write its name between quotation marks")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return s.reading(cmd, func(ctx context.Context, l *library) error {
				return s.writeSheet(ctx, l, strings.Join(args, ""), w)
			})
		},
	}
	w.patternFlags(cmd)
	f := cmd.Flags()
	f.StringVar(&w.cloth, "cloth", "", "the cloth, by its code: alone its own sheet; with a garment and --full, which of its layouts")
	f.StringVar(&w.batch, "batch", "", "the batch that is kept, by its name")
	f.BoolVar(&w.cutList, "cut-list", false, "the cut list instead")
	f.BoolVar(&w.byCloth, "by-cloth", false, "the batch by cloth instead, with --batch")
	f.BoolVar(&w.project, "project", false, "the project sheet of the garment instead")
	f.StringVar(&w.to, "to", "", "the file to write: .pdf, or .svg or .dxf in full size")
	f.StringVar(&w.paper, "paper", "", "a4 or letter (default: that of the settings); in full size a3 and a0 too")
	f.BoolVar(&w.full, "full", false, "in full size")
	f.BoolVar(&w.onePage, "one-page", false, "in full size on one page instead of tiled")
	f.StringSliceVar(&w.pieces, "piece", nil, "codes or names of pattern pieces, with --pattern")
	f.StringVar(&w.weight, "line", "", "in full size: width of a thin line, such as 0.3 mm")
	f.StringVar(&w.gridStep, "grid", "", "in full size: distance of grid lines, such as 5 cm (default: none)")
	f.StringVar(&w.overlaps, "overlap", "", "tiled: what neighbouring sheets share (default: 1 cm)")
	return cmd
}

func (s *session) writeSheet(ctx context.Context, l *library, garment string, w sheetWords) error {
	if w.to == "" {
		return mistyped("No file is named", "Say where to write with --to, such as --to sheet.pdf")
	}
	out := sheetFields{File: w.to, Arrows: []arrowFields{}}
	doc, way, err := l.sheetDocument(ctx, garment, w, &out)
	if err != nil {
		return err
	}
	if err := paper.Save(w.to, way.Ending(), way.Write(doc)); err != nil {
		return err
	}
	out.Sheets = doc.Sheets()
	return s.answer(out, func(o io.Writer) {
		fmt.Fprintf(o, "%s in %s\n", say.Count(out.Sheets, "sheet", "sheets"), out.File)
	})
}

// sheetDocument lays out what was asked for, and says how it is written.
func (l *library) sheetDocument(ctx context.Context, garment string, w sheetWords, out *sheetFields) (*sheet.Document, paper.Way, error) {
	on, err := w.paperOf(l, out)
	if err != nil {
		return nil, "", err
	}
	w.full = w.full || w.onePage || w.pattern != ""
	if !w.full {
		r, err := l.report(ctx, garment, w, out)
		if err != nil {
			return nil, "", err
		}
		doc, err := paper.Report(r, on)
		return doc, paper.Tiled, err
	}
	page, err := l.fullPage(ctx, garment, w, out)
	if err != nil {
		return nil, "", err
	}
	f := sheet.Full{Paper: on}
	for _, x := range []struct {
		flag, text string
		into       *float64
	}{{"--line", w.weight, &f.Weight}, {"--grid", w.gridStep, &f.Grid}, {"--overlap", w.overlaps, &f.Overlap}} {
		if x.text == "" {
			continue
		}
		length, err := measure.ParsePositiveLength(x.text, l.fieldUnit())
		if err != nil {
			return nil, "", said(x.flag, err)
		}
		*x.into = float64(length) / float64(measure.Millimetre)
	}
	way := paper.Tiled
	switch end := strings.ToLower(filepath.Ext(w.to)); {
	case end == paper.OneSVG.Ending():
		way = paper.OneSVG
	case end == paper.OneDXF.Ending():
		way = paper.OneDXF
	case w.onePage:
		way = paper.OnePDF
	}
	doc, err := paper.Document(page, way, f)
	return doc, way, err
}

func (w sheetWords) paperOf(l *library, out *sheetFields) (sheet.Paper, error) {
	if w.paper == "" {
		out.Paper = l.settings.Paper
		if out.Paper == "" {
			out.Paper = records.A4
		}
		return records.PaperOf(l.settings), nil
	}
	for _, p := range paper.Papers {
		if strings.EqualFold(p.Name, w.paper) && (w.full || w.onePage || w.pattern != "" || p.Name == records.A4 || p.Name == records.Letter) {
			out.Paper = p.Name
			return p.Paper, nil
		}
	}
	return sheet.Paper{}, mistyped(fmt.Sprintf("There is no paper %q for that", w.paper), "Take a4 or letter; in full size a3 or a0 too")
}

// report is the cutting sheet, or the list that is wanted instead.
func (l *library) report(ctx context.Context, garment string, w sheetWords, out *sheetFields) (sheet.Report, error) {
	if w.project {
		return l.projectSheet(ctx, garment)
	}
	if w.byCloth {
		return l.byCloth(ctx, w.batch)
	}
	made, err := l.cuttingSheet(ctx, garment, w)
	if err != nil {
		return sheet.Report{}, err
	}
	if w.cutList {
		return paper.CutList(l.voice, made), nil
	}
	out.arrows(made)
	return paper.Cutting(l.voice, made), nil
}

func (l *library) projectSheet(ctx context.Context, garment string) (sheet.Report, error) {
	if garment == "" {
		return sheet.Report{}, mistyped("No garment is named", "Say which garment's project sheet it is")
	}
	g, err := l.pickGarment(ctx, garment)
	if err != nil {
		return sheet.Report{}, err
	}
	made, err := l.ProjectSheet(ctx, g.ID)
	return paper.Project(l.voice, made), err
}

func (l *library) byCloth(ctx context.Context, name string) (sheet.Report, error) {
	if name == "" {
		return sheet.Report{}, mistyped("No batch is named", "Say which with --batch")
	}
	b, err := l.pickBatch(ctx, name)
	if err != nil {
		return sheet.Report{}, err
	}
	made, err := l.BatchSheet(ctx, b)
	if err != nil {
		return sheet.Report{}, err
	}
	all, err := l.Patterns(ctx)
	return paper.ByCloth(l.voice, b, made, func(id stash.ID) string {
		for _, p := range all {
			if p.ID == id {
				return p.Name
			}
		}
		return "a pattern that is gone"
	}), err
}

func (l *library) cuttingSheet(ctx context.Context, garment string, w sheetWords) (planner.CuttingSheet, error) {
	cloth := w.cloth
	switch {
	case w.batch != "":
		b, err := l.pickBatch(ctx, w.batch)
		if err != nil {
			return planner.CuttingSheet{}, err
		}
		return l.BatchSheet(ctx, b)
	case garment != "":
		g, err := l.pickGarment(ctx, garment)
		if err != nil {
			return planner.CuttingSheet{}, err
		}
		return l.CuttingSheet(ctx, g.ID)
	case cloth != "":
		c, err := l.pickCloth(ctx, cloth)
		if err != nil {
			return planner.CuttingSheet{}, err
		}
		return l.ClothSheet(ctx, c.Cloth.ID)
	}
	return planner.CuttingSheet{}, mistyped("No garment is named", "Say which, or which cloth with --cloth, or which batch with --batch")
}

// fullPage is the drawing that is wanted in full size.
func (l *library) fullPage(ctx context.Context, garment string, w sheetWords, out *sheetFields) (sheet.Page, error) {
	if w.pattern != "" {
		search, p, err := w.search(ctx, l)
		if err != nil {
			return sheet.Page{}, err
		}
		return paper.PiecesPage(l.settings.Units, p, search.Size, w.pieces)
	}
	made, err := l.cuttingSheet(ctx, garment, w)
	if err != nil {
		return sheet.Page{}, err
	}
	var codes []string
	for _, c := range made.Cloths {
		codes = append(codes, c.State.Cloth.Code)
		if len(made.Cloths) == 1 || strings.EqualFold(c.State.Cloth.Code, w.cloth) {
			out.arrows(planner.CuttingSheet{Cloths: []planner.SheetCloth{c}})
			return paper.LayoutPage(l.voice, made, c), nil
		}
	}
	return sheet.Page{}, mistyped("It is cut from more than one cloth", "Say which with --cloth: "+strings.Join(codes, ", "))
}

func (f *sheetFields) arrows(s planner.CuttingSheet) {
	mm := func(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) }
	for _, c := range s.Cloths {
		for _, a := range paper.Arrows(c) {
			f.Arrows = append(f.Arrows, arrowFields{Code: c.State.Cloth.Code, Number: a.Piece.Number, Name: a.Piece.Name, Size: a.Piece.Size, From: a.From,
				Foot: [2]float64{mm(a.FootAlong), mm(a.FootAcross)}, Head: [2]float64{mm(a.HeadAlong), mm(a.HeadAcross)}})
		}
	}
}
