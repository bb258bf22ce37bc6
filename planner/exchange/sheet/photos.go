package sheet

import (
	"bytes"
	"image"
	"image/jpeg"

	"tallycloth/planner/scene"

	"github.com/tdewolff/canvas"
	"golang.org/x/image/draw"
)

// Photo is a picture in a report with words under it.
type Photo struct {
	JPEG  []byte
	Words string
}

const (
	photosPerRow = 3
	photoHeight  = 62.0 // of a row of photos, in mm
	// photoPixels is the longest side of a photo on paper: some 300 to the inch in a row.
	photoPixels = 720
)

// photos lays photos out in rows, each as large as its place lets it be, its words under it.
func (l *leaves) photos(all []Photo) {
	const gap = 4.0
	room := (l.width - gap*(photosPerRow-1)) / photosPerRow
	for from := 0; from < len(all); from += photosPerRow {
		row := all[from:min(from+photosPerRow, len(all))]
		pictures, words := make([]picture, len(row)), make([][]string, len(row))
		lines, high := 0, cellSize
		for i, p := range row {
			pictures[i], words[i] = fit(p, room), l.p.wrap(p.Words, cellSize, room)
			lines, high = max(lines, len(words[i])), max(high, pictures[i].high)
		}
		l.room(high + float64(lines)*cellSize*1.1 + 4)
		l.y -= high + 1
		for i, p := range pictures {
			x := margin + float64(i)*(room+gap)
			l.photo(p, x)
			for k, line := range words[i] {
				l.write(line, cellSize, muted, x, l.y-1-cellSize*(0.5+1.1*float64(k)), scene.Start)
			}
		}
		l.y -= float64(lines)*cellSize*1.1 + 3
	}
}

// picture is a photo as large as it comes onto paper: mm of a pixel, and its height in mm.
type picture struct {
	image       *image.RGBA // nil for one that cannot be read
	scale, high float64
}

func fit(p Photo, room float64) picture {
	img, err := fitted(p.JPEG)
	if err != nil {
		return picture{}
	}
	size := img.Bounds().Size()
	scale := min(room/float64(size.X), photoHeight/float64(size.Y))
	return picture{img, scale, scale * float64(size.Y)}
}

// photo draws a picture whose lower left corner lies at x on the line of now.
func (l *leaves) photo(p picture, x float64) {
	if p.image == nil {
		l.write("(a photo that cannot be read)", cellSize, muted, x, l.y+cellSize/2, scene.Start)
		return
	}
	view := canvas.Identity.Translate(x, l.y).Scale(p.scale, p.scale)
	l.mark(func(r canvas.Renderer) { r.RenderImage(p.image, view) })
}

// fitted reads a photo, no larger than paper shows. A pointer comes out, as the writer of PDF
// remembers pictures by it.
func fitted(file []byte) (*image.RGBA, error) {
	full, err := jpeg.Decode(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	b := full.Bounds()
	longest := max(b.Dx(), b.Dy(), 1)
	pixels := min(longest, photoPixels)
	out := image.NewRGBA(image.Rect(0, 0, max(b.Dx()*pixels/longest, 1), max(b.Dy()*pixels/longest, 1)))
	draw.ApproxBiLinear.Scale(out, out.Rect, full, b, draw.Src, nil)
	return out, nil
}
