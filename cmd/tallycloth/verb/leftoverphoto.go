package verb

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"tallycloth/planner"
	"tallycloth/planner/trace"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
)

// photoTrace are the options of leftover for an outline from a photo.
type photoTrace struct {
	photo, corners, sheet, rectangle string
	grain                            float64
	anyway                           bool
}

const photoTraceHelp = `

An odd one comes from a photo: --photo names the picture, --corners the four corners of a
rectangle of known size in it, in pixels from the top left, going round. A sheet of paper
beside the cloth is --sheet a4 or --sheet letter; lines of a cutting mat are --rectangle
with their true lengths, from the first corner to the second and on to the third. The
longer side of a sheet is told by how it lies. --grain says where lengthwise points in the
straightened picture, in degrees counter-clockwise from the side between the first two
corners. Where the outline is not sure, nothing is added unless --anyway is said; look at
it in the window.`

func (p *photoTrace) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&p.photo, "photo", "", "take the outline from this picture (JPEG, PNG, WebP)")
	f.StringVar(&p.corners, "corners", "", `corners of the known rectangle in the picture, as "x,y x,y x,y x,y"`)
	f.StringVar(&p.sheet, "sheet", "", "the rectangle is a sheet of paper beside the cloth: a4 or letter")
	f.StringVar(&p.rectangle, "rectangle", "", `the rectangle is on the mat and has this size: "60 cm x 40 cm"`)
	f.Float64Var(&p.grain, "grain", 0, "where lengthwise points, in degrees")
	f.BoolVar(&p.anyway, "anyway", false, "add it also where the outline is not sure")
}

// arguments asks for length and width where no photo is named.
func (p *photoTrace) arguments(cmd *cobra.Command, args []string) error {
	if p.photo != "" {
		return exactly("the name of a fabric")(cmd, args)
	}
	if p.corners+p.sheet+p.rectangle != "" {
		return mistyped("Corners, a sheet or a rectangle are said, and no photo", "Name the picture with --photo")
	}
	return exactly("the name of a fabric", "a length", "a width")(cmd, args)
}

// outline finds the outline in the photo, in the frame of the cloth.
func (p *photoTrace) outline(ctx context.Context, l *library) (shape.Polygon, error) {
	var none shape.Polygon
	r, err := p.marked(l)
	if err != nil {
		return none, err
	}
	if !(p.grain >= -360 && p.grain <= 360) {
		return none, mistyped("The grain is turned too far", "Write degrees between -360 and 360 after --grain")
	}
	file, err := photoFile(p.photo)
	if err != nil {
		return none, err
	}
	picture, err := l.ReadPhoto(ctx, file)
	if err != nil {
		return none, err
	}
	a, err := l.TracePhoto(ctx, picture, r)
	if err != nil {
		return none, err
	}
	if len(a.Outline.Outer) == 0 || !a.Sure() && !p.anyway {
		return none, unsure(a, p.anyway)
	}
	return planner.Laid(a.Outline, shape.Angle(p.grain*1000))
}

// unsure refuses an outline with the doubts about it.
func unsure(a trace.Answer, anyway bool) error {
	var doubts []string
	for _, d := range a.Doubts {
		doubts = append(doubts, string(d))
	}
	do := strings.Join(doubts, " ")
	if len(a.Outline.Outer) > 0 && !anyway {
		do += " Correct it in the window, or say --anyway"
	}
	return &stash.Error{Kind: stash.Conflict, What: "The outline in the photo is not sure", Do: say.Sentence(do)}
}

// marked is the rectangle that was typed.
func (p *photoTrace) marked(l *library) (trace.Rectangle, error) {
	var r trace.Rectangle
	words := strings.FieldsFunc(p.corners, func(c rune) bool { return c == ' ' || c == ';' })
	if len(words) != 4 {
		return r, mistyped("Four corners are needed", `Write them as --corners "120,80 830,95 870,1100 90,1080"`)
	}
	for i, w := range words {
		x, y, ok := strings.Cut(w, ",")
		var err1, err2 error
		r.Corners[i].X, err1 = strconv.ParseFloat(x, 64)
		r.Corners[i].Y, err2 = strconv.ParseFloat(y, 64)
		if !ok || err1 != nil || err2 != nil {
			return r, mistyped(fmt.Sprintf("%q is no corner", w), "Write pixels from the left and from the top, such as 120,80")
		}
	}
	switch sheet := strings.ToLower(p.sheet); {
	case (sheet == "") == (p.rectangle == ""):
		return r, mistyped("The size of the rectangle is not known", "Say either --sheet a4, --sheet letter or --rectangle with its size")
	case sheet == "a4":
		r.Sheet = true
		r.Along, r.Across = trace.Lying(r.Corners, trace.A4)
	case sheet == "letter":
		r.Sheet = true
		r.Along, r.Across = trace.Lying(r.Corners, trace.Letter)
	case sheet != "":
		return r, mistyped(fmt.Sprintf("%q is no sheet that is known", p.sheet), "Say a4 or letter, or its size with --rectangle")
	default:
		return r, p.sides(l, &r)
	}
	return r, nil
}

// sides reads the size of a rectangle.
func (p *photoTrace) sides(l *library, r *trace.Rectangle) (err error) {
	along, across, ok := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(p.rectangle), "x")
	if !ok {
		return mistyped(fmt.Sprintf("%q is no size of a rectangle", p.rectangle), `Write two lengths, such as "60 cm x 40 cm"`)
	}
	if r.Along, err = measure.ParsePositiveLength(along, l.fieldUnit()); err != nil {
		return said("--rectangle", err)
	}
	if r.Across, err = measure.ParsePositiveLength(across, l.fieldUnit()); err != nil {
		return said("--rectangle", err)
	}
	return nil
}
