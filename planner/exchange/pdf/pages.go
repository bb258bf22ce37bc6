package pdf

import (
	"context"
	"errors"
	"fmt"
	"math"

	"tallycloth/planner/exchange/drawn"

	"github.com/pdfcpu/pdfcpu/pkg/filter"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// pt is a point in mm (ISO 32000-1, 8.3.2.3: 1/72 in).
const pt = 25.4 / 72

// mostPage is the longest side a page may have, in mm.
const mostPage = 100_000

// reader reads the pages of one file.
type reader struct {
	ctx    context.Context
	x      *model.Context
	lim    drawn.Limits
	points int   // that may still come
	ops    int   // operators that may still come
	bytes  int64 // of unpacked instructions that may still come
	layers map[types.IndirectRef]string
	fonts  map[types.IndirectRef]*font
	file   File
}

// pagesOf reads every page. The library panics on some damage, which is an error here.
func pagesOf(ctx context.Context, x *model.Context, lim drawn.Limits) (f File, err error) {
	defer func() {
		if p := recover(); p != nil {
			f, err = File{}, damaged()
		}
	}()
	r := &reader{ctx: ctx, x: x, lim: lim, points: lim.Points, ops: lim.Elements, bytes: mostContent, fonts: map[types.IndirectRef]*font{}, file: File{limits: lim}}
	r.listLayers()
	for n := 1; n <= x.PageCount; n++ {
		if ctx.Err() != nil {
			return File{}, fmt.Errorf("reading the PDF: %w", ctx.Err())
		}
		if err := r.page(n); err != nil {
			return File{}, err
		}
	}
	return r.file, nil
}

func (r *reader) page(n int) error {
	d, _, inherited, err := r.x.PageDict(n, false)
	if err != nil || d == nil {
		return damaged()
	}
	m, w, h, ok := r.view(d, inherited)
	if !ok {
		return drawn.Unsupported(fmt.Sprintf("page %d of the PDF has no sensible size", n), saveAgain)
	}
	res := inherited.Resources
	if own := r.dict(d, "Resources"); own != nil {
		res = own
	}
	p := Page{Number: n, Width: w, Height: h}
	content, err := r.content(d)
	if err != nil {
		return err
	}
	c := painter{r: r, page: &p, area: w * h, state: newState(m, w, h)}
	if err := c.run(content, res, 0); err != nil {
		return err
	}
	p.Picture = math.Min(1, c.pictured/(w*h))
	r.file.Pages = append(r.file.Pages, p)
	return nil
}

// mostContent is how much the drawing instructions of a file may unpack to, in bytes.
const mostContent = 64 << 20

// content is what draws a page, its streams one after the other (7.8.2).
func (r *reader) content(d types.Dict) (all []byte, err error) {
	o, ok := d.Find("Contents")
	if !ok {
		return nil, nil
	}
	streams := types.Array{o}
	if list, err := r.x.DereferenceArray(o); err == nil && list != nil {
		streams = list
	}
	for _, o := range streams {
		s, _, err := r.x.DereferenceStreamDict(o)
		if err != nil || s == nil {
			return nil, damaged()
		}
		if err := r.unpack(s); err != nil {
			return nil, err
		}
		all = append(append(all, s.Content...), '\n')
	}
	return all, nil
}

// unpack decodes a stream within what may still come.
func (r *reader) unpack(s *types.StreamDict) error {
	err := s.DecodeWithLimit(r.bytes)
	if r.bytes -= int64(len(s.Content)); errors.Is(err, filter.ErrDecodeLimitExceeded) || r.bytes <= 0 {
		return drawn.Unsupported(fmt.Sprintf("what draws the pages of the PDF unpacks to more than %d MB", mostContent>>20), "Save the pattern pieces in several files.")
	}
	if err != nil {
		return damaged()
	}
	return nil
}

// view is the map from the page's units to mm as it is seen, and its size in mm: its crop box,
// turned as the page says (ISO 32000-1, 7.7.3.3).
func (r *reader) view(d types.Dict, inherited *model.InheritedPageAttrs) (m matrix, w, h float64, ok bool) {
	box := inherited.MediaBox
	if c := inherited.CropBox; c != nil && c.Width() > 0 && c.Height() > 0 {
		box = c
	}
	if box == nil {
		return m, 0, 0, false
	}
	unit := pt
	if u, found := r.number(d, "UserUnit"); found && u > 0 {
		unit *= u
	}
	left, low := math.Min(box.LL.X, box.UR.X), math.Min(box.LL.Y, box.UR.Y)
	w, h = math.Abs(box.Width())*unit, math.Abs(box.Height())*unit
	if !(w > 1 && h > 1 && w < mostPage && h < mostPage) {
		return m, 0, 0, false
	}
	m = matrix{unit, 0, 0, -unit, -left * unit, h + low*unit}
	turn := ((inherited.Rotate/90)%4 + 4) % 4
	for range turn { // clockwise by a quarter: (x, y) → (h − y, x)
		m = matrix{0, 1, -1, 0, h, 0}.after(m)
		w, h = h, w
	}
	return m, w, h, m.finite()
}

// listLayers reads the names of the optional content groups (ISO 32000-1, 8.11) and which are
// off as the file is opened.
func (r *reader) listLayers() {
	r.layers = map[types.IndirectRef]string{}
	root, err := r.x.Catalog()
	if err != nil {
		return
	}
	oc := r.dict(root, "OCProperties")
	for _, o := range r.array(oc, "OCGs") {
		if ref, ok := o.(types.IndirectRef); ok {
			r.layers[ref] = r.layerName(ref)
		}
	}
	d := r.dict(oc, "D")
	base := d.NameEntry("BaseState")
	off := base != nil && *base == "OFF"
	on := map[types.IndirectRef]bool{}
	for _, o := range r.array(d, "ON") {
		if ref, ok := o.(types.IndirectRef); ok {
			on[ref] = true
		}
	}
	list := r.array(d, "OFF")
	if off {
		list = r.array(oc, "OCGs")
	}
	for _, o := range list {
		if ref, ok := o.(types.IndirectRef); ok && !on[ref] && r.layers[ref] != "" {
			r.file.Off = append(r.file.Off, r.layers[ref])
		}
	}
}

func (r *reader) layerName(ref types.IndirectRef) string {
	d, err := r.x.DereferenceDict(ref)
	if err != nil || d == nil {
		return ""
	}
	o, _ := d.Find("Name")
	name, err := r.x.DereferenceText(o)
	if err != nil || name == "" {
		return ""
	}
	return name
}

// layerOf is the layer of an OC entry: a group, or the first group of a membership dictionary.
func (r *reader) layerOf(o types.Object) string {
	if ref, ok := o.(types.IndirectRef); ok {
		if name, ok := r.layers[ref]; ok {
			return name
		}
	}
	d, err := r.x.DereferenceDict(o)
	if err != nil || d == nil {
		return ""
	}
	groups, found := d.Find("OCGs")
	if !found {
		return ""
	}
	if a, err := r.x.DereferenceArray(groups); err == nil && len(a) > 0 {
		groups = a[0]
	}
	if ref, ok := groups.(types.IndirectRef); ok {
		return r.layers[ref]
	}
	return ""
}

// dict is an entry that is a dictionary, nil where it is none.
func (r *reader) dict(d types.Dict, key string) types.Dict {
	o, ok := d.Find(key)
	if !ok || o == nil {
		return nil
	}
	out, err := r.x.DereferenceDict(o)
	if err != nil {
		return nil
	}
	return out
}

func (r *reader) array(d types.Dict, key string) types.Array {
	o, ok := d.Find(key)
	if !ok || o == nil {
		return nil
	}
	out, err := r.x.DereferenceArray(o)
	if err != nil {
		return nil
	}
	return out
}

func (r *reader) number(d types.Dict, key string) (float64, bool) {
	o, ok := d.Find(key)
	if !ok || o == nil {
		return 0, false
	}
	v, err := r.x.DereferenceNumber(o)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

func (r *reader) numbers(d types.Dict, key string, n int) []float64 {
	a := r.array(d, key)
	if len(a) != n {
		return nil
	}
	out := make([]float64, n)
	for i, o := range a {
		v, err := r.x.DereferenceNumber(o)
		if err != nil {
			return nil
		}
		out[i] = v
	}
	return out
}
