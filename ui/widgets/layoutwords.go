package widgets

import (
	"image"
	"image/color"
	"image/draw"

	"golang.org/x/image/font"

	"tallycloth/stash/shape"
	"tallycloth/ui/looks"
)

// words writes a text centred at a pixel, px pixels high, cut short to fit into width;
// a text of which less than three letters would be left is not written. Width 0 does not limit it.
func (b *brush) words(text string, x, y, width float32, px int, c color.NRGBA) {
	f := face(px)
	if f == nil || text == "" {
		return
	}
	if width > 0 {
		if text = shortWords(f, text, int(width)); len([]rune(text)) < 3 {
			return
		}
	}
	mask := wordsMask(f, text, px)
	at := image.Pt(int(x)-mask.Rect.Dx()/2, int(y)-px*2/3)
	draw.DrawMask(b.img, mask.Rect.Add(at), image.NewUniform(c), image.Point{}, mask, image.Point{}, draw.Over)
}

// wordsWidth is how wide a text px pixels high is drawn.
func wordsWidth(text string, px int) int {
	f := face(px)
	if f == nil {
		return 0
	}
	drawMu.Lock()
	defer drawMu.Unlock()
	return font.MeasureString(f, text).Ceil()
}

// shortWords cuts a text at its end, with an ellipsis, so that it is no wider than width.
func shortWords(f font.Face, text string, width int) string {
	drawMu.Lock()
	defer drawMu.Unlock()
	if font.MeasureString(f, text).Ceil() <= width {
		return text
	}
	r := []rune(text)
	for n := len(r) - 1; n > 0; n-- {
		if s := string(r[:n]) + "…"; font.MeasureString(f, s).Ceil() <= width {
			return s
		}
	}
	return ""
}

// write puts a piece's name into its middle, and its note beneath where there is room.
func (q PicturePiece) write(b *brush, px int) {
	box := b.reach(q.Outline, 0)
	if !q.hasRoom(box, px) {
		return
	}
	x, y := float32(box.Min.X+box.Max.X)/2, float32(box.Min.Y+box.Max.Y)/2
	wide := float32(box.Dx()) * 0.85
	if q.Note != "" && box.Dy() > 3*px {
		b.words(q.Name, x, y-float32(px)*0.6, wide, px, ink)
		b.words(q.Note, x, y+float32(px)*0.7, wide, px, ink)
		return
	}
	b.words(q.Name, x, y, wide, px, ink)
}

// writeNarrow names pieces that are too narrow for their name, such as strips, beside them where
// nothing else lies on the cloth.
func (p *ClothPicture) writeNarrow(b *brush, px int) {
	within := b.pixels(p.Cloth.Rings(), 0)
	var taken []image.Rectangle
	for _, q := range append(append([]PicturePiece{}, p.Pieces...), p.Reserved...) {
		taken = append(taken, b.reach(q.Outline, 1))
	}
	free := func(r image.Rectangle) bool {
		if !r.In(within) {
			return false
		}
		for _, t := range taken {
			if t.Overlaps(r) {
				return false
			}
		}
		return true
	}
	for _, q := range p.Pieces {
		box := b.reach(q.Outline, 0)
		wide := wordsWidth(q.Name, px)
		if wide == 0 || q.hasRoom(box, px) {
			continue
		}
		mid := image.Pt((box.Min.X+box.Max.X)/2, (box.Min.Y+box.Max.Y)/2)
		for _, at := range []image.Point{{box.Max.X + 4 + wide/2, mid.Y}, {box.Min.X - 4 - wide/2, mid.Y}, {mid.X, box.Min.Y - px/2 - 2}, {mid.X, box.Max.Y + px/2 + 2}} {
			r := image.Rect(at.X-wide/2-1, at.Y-px/2, at.X+wide/2+1, at.Y+px/2+1)
			if free(r) {
				b.words(q.Name, float32(at.X), float32(at.Y), 0, px, ink)
				taken = append(taken, r)
				break
			}
		}
	}
}

// hasRoom says whether the name of a piece can be written into it.
func (q PicturePiece) hasRoom(box image.Rectangle, px int) bool {
	return box.Dy() >= px+2 && box.Dx() >= 3*px
}

// writeEdges names the selvedges and folds beside the cloth, and what is free on it.
func (p *ClothPicture) writeEdges(b *brush, pal looks.Palette, px int) {
	box := p.Cloth.Bounds()
	x0, low := b.v.at(box.Min)
	x1, high := b.v.at(box.Max)
	middle := (x0 + x1) / 2
	if p.SelvedgeLow {
		b.words("selvedge", middle, low+float32(px), 0, px, pal.Muted)
	}
	if p.SelvedgeHigh {
		b.words("selvedge", middle, high-float32(px), 0, px, pal.Muted)
	}
	for _, y := range p.Folds {
		_, at := b.v.at(shape.Point{Y: y})
		b.words("fold", x1+float32(px)*1.4, at, 0, px, pal.Accent)
	}
	if p.FreeLabel != "" {
		from, _ := b.v.at(shape.Point{X: p.FreeFrom})
		to, _ := b.v.at(shape.Point{X: p.FreeTo})
		half := float32(wordsWidth(p.FreeLabel, px))/2 + 3
		if to-from < 2*half { // no room between the pieces: beside the selvedge
			x := max(min((from+to)/2, x1-half), x0+half)
			if word := float32(wordsWidth("selvedge", px))/2 + half + float32(px); p.SelvedgeHigh && x > middle-word && x < middle+word {
				x = middle + word
			}
			b.words(p.FreeLabel, x, high-float32(px), 0, px, pal.Ink)
			return
		}
		b.words(p.FreeLabel, (from+to)/2, high+float32(px)*1.2, 0, px, ink)
	}
}
