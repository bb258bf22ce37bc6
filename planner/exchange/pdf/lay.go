package pdf

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"tallycloth/planner/exchange/drawn"
	"tallycloth/stash"
	"tallycloth/stash/measure"
)

// joinNear is how far apart the ends of a line may lie on two pages, in mm: paper is cut by
// margins that are rounded.
const joinNear = 0.4

// between pages that lie by themselves, in mm.
const between = 20

// letterSize is the area up to which an area without an outline is taken for a letter or an
// arrow, in mm².
const letterSize = 400

// layer collects lines on their way into a drawing.
type laying struct {
	file   File
	plan   drawn.Plan
	factor float64
	runs   []drawn.Run
	lines  []style // by Tag
	sheets []drawn.Sheet
	words  []wordOn
	small  int
	low    float64 // where the next page by itself begins
	right  float64
}

// Lay puts the pages where a plan says and makes a drawing of them. unit is what a point
// (1/72 in) of the file measures in mm, 0 for what the standard says. The errors are a
// *stash.Error for a plan that cannot be, and that of a context that ended.
func (f File) Lay(ctx context.Context, plan drawn.Plan, told string, unit float64) (drawn.Drawing, error) {
	if unit <= 0 {
		unit = pt
	}
	l := &laying{file: f, plan: plan, factor: unit / pt}
	if err := l.possible(); err != nil {
		return drawn.Drawing{}, err
	}
	if plan.Rows == nil {
		for _, p := range f.Pages {
			l.alone(p, false)
		}
	} else {
		l.joined()
	}
	near := drawn.Near
	if plan.Rows != nil {
		near = joinNear
	}
	runs, forks := drawn.Join(l.runs, near*l.factor)
	c := drawn.Collector{Limits: f.limits, Brief: true}
	for i, r := range runs {
		st := l.lines[r.Tag]
		var group []string
		if st.layer != "" {
			group = []string{st.layer}
		}
		c.Add(r.Points, r.Closed, drawn.Found{Group: group, Object: i, Line: st.line})
	}
	for _, w := range l.words {
		var group []string
		if w.layer != "" {
			group = []string{w.layer}
		}
		c.Write(w.text, w.from, drawn.Place{X: (w.from.X + w.to.X) / 2, Y: (w.from.Y + w.to.Y) / 2}, w.height, group)
	}
	f.warn(&c, l, forks)
	s := drawn.Scale{Unit: unit, Given: math.Abs(l.factor-1) > 1e-12, From: fmt.Sprintf("pages of %.0f × %.0f mm", f.Pages[0].Width, f.Pages[0].Height),
		Width: measure.Length(drawn.Micro(l.right)), Height: measure.Length(drawn.Micro(l.low))}
	if s.Given {
		s.From = "the size you gave"
	}
	d, err := c.Finish(ctx, s)
	if err != nil {
		return d, err
	}
	d.Pages = &drawn.Pages{Plan: plan, Count: len(f.Pages), Sheets: l.sheets, Scans: f.scans(), Told: told}
	return d, nil
}

// possible refuses a plan that names pages which are not there, or leaves nothing of a page.
func (l *laying) possible() error {
	bad := func(what, do string) error { return &stash.Error{Kind: stash.Invalid, What: what, Do: do} }
	p := l.plan
	for _, v := range []float64{p.Left, p.Top, p.Right, p.Low, p.Shared} {
		if !(v >= 0 && v < mostPage) {
			return bad("an edge to cut off, or what pages share, is less than zero", "Type 0 where there is none.")
		}
	}
	seen := map[int]bool{}
	for _, row := range p.Rows {
		for _, n := range row {
			switch {
			case n == 0:
				continue
			case n < 0 || n > len(l.file.Pages):
				return bad(fmt.Sprintf("there is no page %d, the file has %d", n, len(l.file.Pages)), "Name the pages by their numbers, row by row.")
			case seen[n]:
				return bad(fmt.Sprintf("page %d is named twice", n), "Name every page once.")
			}
			seen[n] = true
			if w := window(l.file.Pages[n-1], p); w.wide()-p.Shared < 10 || w.tall()-p.Shared < 10 {
				return bad(fmt.Sprintf("nothing is left of page %d", n), "Cut off less at its edges, or let pages share less.")
			}
		}
	}
	if p.Rows != nil && len(seen) == 0 {
		return bad("no page is named", "Name the pages by their numbers, row by row.")
	}
	return nil
}

// joined lays pages in rows; of those beside them only test squares are taken.
func (l *laying) joined() {
	var pages []Page
	at := map[int][2]int{}
	for r, row := range l.plan.Rows {
		for c, n := range row {
			if n > 0 {
				pages = append(pages, l.file.Pages[n-1])
				at[n] = [2]int{r, c}
			}
		}
	}
	w := window(pages[0], l.plan)
	stepX, stepY := w.wide()-l.plan.Shared, w.tall()-l.plan.Shared
	for i, lines := range content(pages, w, l.plan.Shared) {
		p, place := pages[i], at[pages[i].Number]
		cell := window(p, l.plan)
		x, y := float64(place[1])*stepX-cell.left, float64(place[0])*stepY-cell.top
		l.sheet(p.Number, cell, x, y)
		if l.has(place[0], place[1]+1) {
			cell.right = cell.left + stepX
		}
		if l.has(place[0]+1, place[1]) {
			cell.low = cell.top + stepY
		}
		l.write(p, cell, x, y)
		for _, line := range lines {
			parts, whole := cell.clip(line.points, line.closed)
			for _, part := range parts {
				l.add(part, whole && line.closed, line.style, x, y, 0)
			}
		}
	}
	for _, p := range l.file.Pages {
		if _, laid := at[p.Number]; !laid {
			l.alone(p, true)
		}
	}
}

func (l *laying) has(row, col int) bool {
	rows := l.plan.Rows
	return row < len(rows) && col < len(rows[row]) && rows[row][col] > 0
}

// sheet notes where a page lies.
func (l *laying) sheet(n int, b box, x, y float64) {
	lo, hi := drawn.AtPage((b.left+x)*l.factor, (b.top+y)*l.factor, (b.right+x)*l.factor, (b.low+y)*l.factor)
	l.sheets = append(l.sheets, drawn.Sheet{Number: n, Min: lo, Max: hi})
	l.low, l.right = math.Max(l.low, (b.low+y)*l.factor), math.Max(l.right, (b.right+x)*l.factor)
}

// alone lays a page below everything; onlySquares takes squares of it and nothing else.
func (l *laying) alone(p Page, onlySquares bool) {
	y := 0.0
	if len(l.sheets) > 0 {
		y = l.low/l.factor + between
	}
	if onlySquares {
		for _, line := range p.lines {
			if b := boxOf(line.points); line.closed && len(line.points) <= 5 && math.Abs(b.wide()-b.tall()) < 0.005*b.wide() && b.wide() > 9 {
				l.add(line.points, true, style{line: line.style.line}, 0, y, p.Number)
				l.low, l.right = math.Max(l.low, (b.low+y)*l.factor), math.Max(l.right, b.right*l.factor)
			}
		}
		return
	}
	l.sheet(p.Number, box{0, 0, p.Width, p.Height}, 0, y)
	l.write(p, box{0, 0, p.Width, p.Height}, 0, y)
	for _, line := range p.lines {
		l.add(line.points, line.closed, line.style, 0, y, p.Number)
	}
}

// add takes a line, moved; lines of one page and style may be joined.
func (l *laying) add(points []drawn.Place, closed bool, st style, x, y float64, page int) {
	if st.line.Filled && areaOf(points) < letterSize {
		l.small++
		return
	}
	moved := make([]drawn.Place, len(points))
	for i, p := range points {
		moved[i] = drawn.Place{X: (p.X + x) * l.factor, Y: (p.Y + y) * l.factor}
	}
	if closed && len(moved) > 1 && moved[0] == moved[len(moved)-1] {
		moved = moved[:len(moved)-1]
	}
	l.runs = append(l.runs, drawn.Run{Points: moved, Closed: closed, Key: fmt.Sprintf("%d|%s|%+v", page, st.layer, st.line), Tag: len(l.lines)})
	l.lines = append(l.lines, st)
}

func areaOf(points []drawn.Place) float64 {
	sum := 0.0
	for i, p := range points {
		q := points[(i+1)%len(points)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(sum) / 2
}

// scans are the pages that are pictures.
func (f File) scans() (out []int) {
	for _, p := range f.Pages {
		if p.Scan() {
			out = append(out, p.Number)
		}
	}
	return out
}

// warn tells what of the file is no outline.
func (f File) warn(c *drawn.Collector, l *laying, forks int) {
	words := 0
	for _, p := range f.Pages {
		words += p.unread
	}
	if scans := f.scans(); len(scans) > 0 {
		c.Warn(drawn.Warning{Reason: drawn.Picture, What: pagesWords(scans, "is a picture", "are pictures") + ", not a drawing", Do: "Trace it: choose Trace a picture."})
	}
	if words > 0 {
		c.Warn(drawn.Warning{Reason: drawn.Text, What: "some words were left out: the PDF does not say which letters they are", Do: "Name the pattern pieces below."})
	}
	if len(f.Off) > 0 {
		c.Warn(drawn.Warning{Reason: drawn.Hidden, What: "layers that are switched off in the file were read all the same: " + strings.Join(f.Off, ", "), Do: "Choose below which layers to take."})
	}
	if f.Clipped {
		c.Warn(drawn.Warning{Reason: drawn.Clipped, What: "something is clipped by a shape; it was cut off at the box around that shape", Do: "Compare the outlines with the paper."})
	}
	if l.small > 0 {
		c.Warn(drawn.Warning{Reason: drawn.Marks, What: fmt.Sprintf("small filled marks, such as letters and arrows, were left out: %d", l.small), Do: "Nothing to do, unless one is a pattern piece."})
	}
	if forks > 0 {
		c.Warn(drawn.Warning{Reason: drawn.OpenPath, What: fmt.Sprintf("in %d places more than two lines end, so they were not joined there", forks), Do: "Choose below which lines make a size."})
	}
	laid := map[int]bool{}
	for _, s := range l.sheets {
		laid[s.Number] = true
	}
	var left []int
	for _, p := range f.Pages {
		if !laid[p.Number] && len(p.lines) > 0 {
			left = append(left, p.Number)
		}
	}
	if len(left) > 0 {
		c.Warn(drawn.Warning{Reason: drawn.NotRead, What: pagesWords(left, "does not belong", "do not belong") + " to the joined sheet; only test squares were taken", Do: "Name it among the rows of pages if it does."})
	}
}

func pagesWords(n []int, one, many string) string {
	slices.Sort(n)
	if len(n) == 1 {
		return fmt.Sprintf("page %d %s", n[0], one)
	}
	words := make([]string, len(n))
	for i, v := range n {
		words[i] = fmt.Sprint(v)
	}
	return fmt.Sprintf("pages %s and %s %s", strings.Join(words[:len(n)-1], ", "), words[len(n)-1], many)
}
