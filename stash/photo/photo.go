package photo

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"tallycloth/stash"

	"golang.org/x/image/draw"
	"golang.org/x/image/webp"
)

// Limits of what is read. Telephones make up to some 50 million pixels and 20 MB.
const (
	MostBytes  = 40 << 20
	MostPixels = 52_000_000
	mostSide   = 20_000
)

// Sizes of what is kept, longer side, in pixels: enough to see the stitches of a test
// scrap on a laptop's whole screen; and as large as a row or a card shows it, twice as
// fine.
const (
	FullSide  = 2048
	ThumbSide = 320
)

// Keep returns what a library keeps of a file: at most FullSide and ThumbSide pixels on
// the longer side, upright, without metadata. Errors are as those of Read.
func Keep(ctx context.Context, file []byte) (stash.Picture, error) {
	img, err := Read(ctx, file)
	if err != nil {
		return stash.Picture{}, err
	}
	full := within(img, FullSide)
	if err := ctx.Err(); err != nil {
		return stash.Picture{}, err
	}
	p := stash.Picture{Width: full.Bounds().Dx(), Height: full.Bounds().Dy()}
	if p.Full, err = encode(full, 88); err != nil {
		return stash.Picture{}, err
	}
	if p.Thumb, err = encode(within(full, ThumbSide), 80); err != nil {
		return stash.Picture{}, err
	}
	return p, p.Validate()
}

// Read returns the picture in a file, turned upright, on white where it is transparent.
// A file that is no picture, is broken, or would unpack to too much is an error of kind
// Unsupported that says what to do.
func Read(ctx context.Context, file []byte) (*image.RGBA, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	f, err := check(file)
	if err != nil {
		return nil, err
	}
	img, err := f.decode(bytes.NewReader(file))
	if err != nil {
		return nil, refused("Open it in a picture viewer and save it again, or choose another", "The file is broken", err)
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return upright(flat(img), f.orientation(file)), nil
}

// format is a kind of file that is read.
type format struct {
	name        string
	config      func(*bytes.Reader) (image.Config, error)
	decode      func(*bytes.Reader) (image.Image, error)
	orientation func([]byte) int
}

var formats = map[string]format{
	"jpeg": {"JPEG", func(r *bytes.Reader) (image.Config, error) { return jpeg.DecodeConfig(r) },
		func(r *bytes.Reader) (image.Image, error) { return jpeg.Decode(r) }, jpegOrientation},
	"png": {"PNG", func(r *bytes.Reader) (image.Config, error) { return png.DecodeConfig(r) },
		func(r *bytes.Reader) (image.Image, error) { return png.Decode(r) }, pngOrientation},
	"webp": {"WebP", func(r *bytes.Reader) (image.Config, error) { return webp.DecodeConfig(r) },
		func(r *bytes.Reader) (image.Image, error) { return webp.Decode(r) }, webpOrientation},
}

// check looks at size and header alone.
func check(file []byte) (format, error) {
	if len(file) > MostBytes {
		return format{}, refused("Save it smaller, 20 MB are plenty", fmt.Sprintf("The file has %d MB, more than a photo", len(file)>>20), nil)
	}
	f, ok := formats[sniff(file)]
	if !ok {
		return f, unknown(file)
	}
	c, err := f.config(bytes.NewReader(file))
	if err != nil || c.Width < 1 || c.Height < 1 {
		return f, refused("Open it in a picture viewer and save it again, or choose another", "The "+f.name+" file is broken", err)
	}
	most := MostPixels
	if c.ColorModel == color.RGBA64Model || c.ColorModel == color.NRGBA64Model {
		most /= 2
	}
	if c.Width > mostSide || c.Height > mostSide || c.Width*c.Height > most {
		return f, refused("Save it smaller first", fmt.Sprintf("The picture would have %d × %d pixels, more than a photo has", c.Width, c.Height), nil)
	}
	return f, nil
}

// sniff tells a format by its first bytes (ISO/IEC 10918-1 B.2.1; ISO/IEC 15948, 5.2;
// RFC 9649, 2.4).
func sniff(b []byte) string {
	switch {
	case bytes.HasPrefix(b, []byte{0xFF, 0xD8, 0xFF}):
		return "jpeg"
	case bytes.HasPrefix(b, []byte("\x89PNG\r\n\x1a\n")):
		return "png"
	case len(b) >= 12 && string(b[:4]) == "RIFF" && string(b[8:12]) == "WEBP":
		return "webp"
	}
	return ""
}

// unknown refuses a file that is not read, with advice where it is known what it is.
func unknown(b []byte) error {
	switch {
	case len(b) == 0:
		return refused("Choose another", "The file is empty", nil)
	case len(b) >= 12 && string(b[4:8]) == "ftyp":
		return refused("Have the telephone send it as JPEG, or save it as JPEG first", "This is a photo in the HEIF family, which is not read", nil)
	}
	return refused("Choose a JPEG, PNG or WebP file", "This is no picture that can be read", nil)
}

func refused(do, what string, err error) error {
	return &stash.Error{Kind: stash.Unsupported, What: what, Do: do, Err: err}
}

// flat returns a picture as opaque RGBA that starts at (0, 0).
func flat(img image.Image) *image.RGBA {
	b := img.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	if o, ok := img.(interface{ Opaque() bool }); ok && o.Opaque() {
		draw.Draw(out, out.Rect, img, b.Min, draw.Src)
		return out
	}
	draw.Draw(out, out.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Rect, img, b.Min, draw.Over)
	return out
}

// within returns a picture whose longer side is at most that many pixels; none is
// enlarged.
func within(img *image.RGBA, side int) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	long := max(w, h)
	if long <= side {
		return img
	}
	out := image.NewRGBA(image.Rect(0, 0, max(1, w*side/long), max(1, h*side/long)))
	draw.BiLinear.Scale(out, out.Rect, img, img.Rect, draw.Src, nil)
	return out
}

func encode(img image.Image, quality int) ([]byte, error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		return nil, fmt.Errorf("writing the picture: %w", err)
	}
	return b.Bytes(), nil
}
