package sheet_test

import (
	"math"
	"testing"

	"tallycloth/assets"
	"tallycloth/planner/binding"
	"tallycloth/planner/exchange/sheet"
	"tallycloth/planner/scene"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
)

const (
	cm = measure.Centimetre
	mm = measure.Millimetre
)

func printer(t testing.TB) *sheet.Printer {
	t.Helper()
	p, err := sheet.New(assets.FontRegular, assets.FontWider)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// half is an invented half front with a neck and an armhole, its fold on y = 0.
func half(length, width int64) shape.Ring {
	r := shape.Ring{{X: 0, Y: 0}, {X: length - 140_000, Y: 0}}
	for i := range 9 { // neck
		a := float64(i) / 8 * math.Pi / 2
		r = append(r, shape.Point{X: length - 140_000 + int64(140_000*(1-math.Cos(a))), Y: int64(70_000 * math.Sin(a))})
	}
	r = append(r, shape.Point{X: length, Y: 110_000})
	for i := range 9 { // armhole
		a := float64(i) / 8 * math.Pi / 2
		r = append(r, shape.Point{X: length - int64(210_000*math.Sin(a)), Y: 110_000 + int64(float64(width-110_000)*(1-math.Cos(a)))})
	}
	return append(r, shape.Point{X: 0, Y: width}).Clean()
}

func placed(name string, tint int, outline shape.Ring) scene.Placed {
	b := outline.Bounds()
	mid := b.Min.Y + b.Width()/4
	return scene.Placed{ID: name, Name: name, Size: "M", Count: "cut 1 on the fold", Tint: tint, Outline: outline,
		GrainFrom: shape.Point{X: b.Min.X + b.Length()/4, Y: mid}, GrainTo: shape.Point{X: b.Min.X + 3*b.Length()/5, Y: mid},
		Notches: []scene.Nick{{At: shape.Point{X: b.Min.X + 200_000, Y: b.Max.Y}, Tip: shape.Point{X: b.Min.X + 200_000, Y: b.Max.Y - 10_000}}}}
}

// layoutScene is a folded length with two pattern pieces, a flaw, a reserved area and an overlap.
func layoutScene() scene.Scene {
	front := half(680_000, 260_000)
	back := half(700_000, 260_000).Move(shape.Point{X: 20_000, Y: 280_000})
	box := func(x0, y0, x1, y1 int64) shape.Polygon {
		return shape.Polygon{Outer: shape.Box{Min: shape.Point{X: x0, Y: y0}, Max: shape.Point{X: x1, Y: y1}}.Ring()}
	}
	return scene.Layout{Cloth: box(0, 0, 1_400_000, 750_000), Selvedges: scene.Sides{High: true}, Folds: []int64{0},
		Flaws:    []shape.Polygon{box(800_000, 600_000, 840_000, 650_000)},
		Reserved: []scene.Kept{{Outline: box(760_000, 20_000, 1_000_000, 500_000), Name: "blue sleep shirt"}},
		Pieces:   []scene.Placed{placed("front", 1, front), placed("back", 1, back)},
		Overlaps: []scene.Clash{{Area: box(600_000, 255_000, 650_000, 259_000), Depth: 4_000}},
		Units:    measure.Metric}.Scene()
}

// leftoverScene is an odd leftover with a hole, in inches.
func leftoverScene() scene.Scene {
	l := scene.Layout{Units: measure.Imperial, Selvedges: scene.Sides{Low: true}}
	l.Cloth = shape.Polygon{Outer: shape.Ring{{X: 0, Y: 0}, {X: 600_000, Y: 0}, {X: 500_000, Y: 300_000}, {X: 200_000, Y: 420_000}, {X: 0, Y: 200_000}},
		Holes: []shape.Ring{{{X: 300_000, Y: 100_000}, {X: 300_000, Y: 150_000}, {X: 380_000, Y: 150_000}, {X: 380_000, Y: 100_000}}}}
	l.Pieces = []scene.Placed{placed("pocket", 2, shape.Box{Min: shape.Point{X: 20_000, Y: 10_000}, Max: shape.Point{X: 200_000, Y: 170_000}}.Ring())}
	return l.Scene()
}

// tankStrips works an invented tank's neck and armholes out and cuts them from one leftover.
func tankStrips(t testing.TB, units measure.System) ([]binding.Strip, binding.CutPlan, []binding.Source) {
	t.Helper()
	finish := binding.Finish{Technique: binding.WrappedTurned, Width: cm, Seam: cm, Turn: 2 * mm, SecondRow: 2 * mm}
	jobs := []binding.Job{
		{Name: "neck", Closed: true, Finish: finish, Units: units, Segments: []binding.Segment{
			{Name: "back neck", Length: 21 * cm, Turning: 1.6, Mark: "left shoulder"}, {Name: "front neck", Length: 36 * cm, Turning: 4.6, Mark: "right shoulder", NoJoin: true}}},
		{Name: "armhole", Count: 2, Finish: finish, Units: units, EndExtra: 6 * cm, Drawn: 0.03, Segments: []binding.Segment{
			{Name: "back", Length: 20 * cm, Turning: 0.9, Mark: "side seam"}, {Name: "front", Length: 22 * cm, Turning: 1.6, Mark: "strap point"}, {Name: "strap", Length: 16 * cm, Free: true}}},
	}
	var strips []binding.Strip
	for _, j := range jobs {
		s, err := binding.Work(j, binding.FabricFacts{Stretch: 6000, Recovery: 9200, Narrowing: 1200, Knit: true})
		if err != nil {
			t.Fatal(err)
		}
		strips = append(strips, s)
	}
	sources := []binding.Source{{Name: "leftover", Across: 58 * cm, Along: 40 * cm}}
	plan, err := binding.Plan(t.Context(), strips, sources)
	if err != nil {
		t.Fatal(err)
	}
	return strips, plan, sources
}

func stripScene(s binding.Strip, joins []measure.Length) scene.Scene {
	d := scene.StripDrawing{Name: s.Job.Name, Length: int64(s.CutLength), Width: int64(s.CutWidth), Units: s.Job.Units, FreeEnd: !s.Job.Closed}
	for _, f := range s.FoldLines() {
		d.Folds = append(d.Folds, int64(f))
	}
	for _, m := range s.Marks {
		d.Marks = append(d.Marks, scene.StripMark{Name: m.Name, At: int64(m.FromEnd)})
	}
	for _, p := range s.Parts {
		d.Parts = append(d.Parts, scene.StripSpan{Name: p.Segment.Name + " " + measure.FormatPercent(measure.PercentOf(p.Ratio)/100*100), From: int64(p.From), To: int64(p.From + p.Length)})
	}
	for _, j := range joins {
		d.Joins = append(d.Joins, int64(j))
	}
	return d.Scene()
}

func cutScene(strips []binding.Strip, plan binding.CutPlan, src binding.Source) scene.Scene {
	names := []string{"neck", "armhole 1", "armhole 2"}
	d := scene.CutDrawing{Name: src.Name, Across: int64(src.Across), Along: int64(src.Along), Units: strips[0].Job.Units}
	for _, p := range plan.Pieces {
		d.Pieces = append(d.Pieces, scene.CutPiece{Name: names[p.StripNo], From: int64(p.From), To: int64(p.To), At: int64(p.At), Width: int64(p.Width),
			Tint: p.StripNo + 1, JoinFrom: p.Part > 0, JoinTo: p.Part < len(plan.Joins[p.StripNo])})
	}
	return d.Scene()
}

func sectionScene(technique binding.Technique) scene.Scene {
	f := binding.Finish{Technique: technique, Width: cm, Seam: 9 * mm, Turn: mm, Caught: 6 * mm, SecondRow: 2 * mm}
	s := f.Section()
	width, _ := f.CutWidth()
	d := scene.SectionDrawing{Garment: s.Garment, Strip: s.Strip, Finished: int64(f.Width), Seam: int64(f.Seam), CutWidth: int64(width), Inwards: f.Reach() < 0}
	for _, x := range s.Stitches {
		d.Stitches = append(d.Stitches, int64(x))
	}
	return d.Scene()
}
