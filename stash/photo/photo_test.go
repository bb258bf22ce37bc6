package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"tallycloth/stash"
)

// corner is a picture 60 × 40 with a colour of its own in each quarter.
func corner() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 60, 40))
	for y := range 40 {
		for x := range 60 {
			c := color.RGBA{230, 20, 20, 255}
			switch {
			case x >= 30 && y < 20:
				c = color.RGBA{20, 200, 20, 255}
			case x < 30 && y >= 20:
				c = color.RGBA{20, 20, 230, 255}
			case x >= 30:
				c = color.RGBA{240, 240, 240, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// tiff is metadata with an orientation, and words that must not be kept.
func tiff(order binary.AppendByteOrder, orientation int) []byte {
	b := []byte("II*\x00")
	if order == binary.AppendByteOrder(binary.BigEndian) {
		b = []byte("MM\x00*")
	}
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	b = order.AppendUint16(b, 270) // a description, elsewhere
	b = order.AppendUint16(b, 2)
	b = order.AppendUint32(b, uint32(len(secret)))
	b = order.AppendUint32(b, 38)
	b = order.AppendUint16(b, 274)
	b = order.AppendUint16(b, 3)
	b = order.AppendUint32(b, 1)
	b = order.AppendUint16(b, uint16(orientation))
	b = order.AppendUint16(b, 0)
	b = order.AppendUint32(b, 0)
	return append(b, secret...)
}

const secret = "GPS 12 Mill Lane, taken by me"

// segment is an application segment of a JPEG file.
func segment(kind byte, body string) []byte {
	return append([]byte{0xFF, kind, byte((len(body) + 2) >> 8), byte(len(body) + 2)}, body...)
}

func jpegOf(t testing.TB, img image.Image, extra ...[]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	out := append([]byte{}, b.Bytes()[:2]...)
	for _, e := range extra {
		out = append(out, e...)
	}
	return append(out, b.Bytes()[2:]...)
}

func pngOf(t testing.TB, img image.Image, chunks ...[]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	head := 8 + 25 // the signature and the header
	out := append([]byte{}, b.Bytes()[:head]...)
	for _, c := range chunks {
		out = append(out, c...)
	}
	return append(out, b.Bytes()[head:]...)
}

func chunk(kind string, body []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(append(b, kind...), body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// colours names the four quarters of a picture, from the top left, by rows.
func colours(img image.Image) string {
	b := img.Bounds()
	name := func(x, y int) string {
		r, g, bl, _ := img.At(x, y).RGBA()
		switch {
		case r > 40000 && g > 40000 && bl > 40000:
			return "w"
		case r > 40000:
			return "r"
		case g > 40000:
			return "g"
		}
		return "b"
	}
	x, y := b.Dx()/4, b.Dy()/4
	return name(x, y) + name(3*x, y) + name(x, 3*y) + name(3*x, 3*y)
}

// TestAllEightOrientations stores the picture each of the eight ways, as table 18 of
// CIPA DC-008 describes them, and reads it back upright. ImageMagick turns the same files
// the same way.
func TestAllEightOrientations(t *testing.T) {
	dir := t.TempDir()
	for o := 1; o <= 8; o++ {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			exif := tiff(order, o)
			files := map[string][]byte{
				"jpeg": jpegOf(t, lying(corner(), o), segment(0xE0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x00\x00"), segment(0xE1, "Exif\x00\x00"+string(exif))),
				"png":  pngOf(t, lying(corner(), o), chunk("eXIf", exif)),
			}
			for name, file := range files {
				img, err := Read(t.Context(), file)
				if err != nil {
					t.Fatalf("%s, orientation %d: %v", name, o, err)
				}
				if img.Rect.Dx() != 60 || img.Rect.Dy() != 40 || colours(img) != "rgbw" {
					t.Errorf("%s, orientation %d: %v %s", name, o, img.Rect, colours(img))
				}
			}
			if got := byImageMagick(t, dir, files["jpeg"]); colours(got) != "rgbw" || got.Bounds().Dx() != 60 {
				t.Errorf("orientation %d: ImageMagick turns it to %v %s", o, got.Bounds(), colours(got))
			}
		}
	}
}

// lying stores a picture the other way round: written from the meaning of each value, the
// place of the stored first row and first column in the upright picture.
func lying(img *image.RGBA, orientation int) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	sw, sh := w, h
	if orientation > 4 {
		sw, sh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, sw, sh))
	for row := range sh {
		for col := range sw {
			var x, y int
			switch orientation {
			case 1: // row 0 is the top, column 0 the left side
				x, y = col, row
			case 2: // top, right
				x, y = w-1-col, row
			case 3: // bottom, right
				x, y = w-1-col, h-1-row
			case 4: // bottom, left
				x, y = col, h-1-row
			case 5: // left, top
				x, y = row, col
			case 6: // right, top
				x, y = w-1-row, col
			case 7: // right, bottom
				x, y = w-1-row, h-1-col
			case 8: // left, bottom
				x, y = row, h-1-col
			}
			out.SetRGBA(col, row, img.RGBAAt(x, y))
		}
	}
	return out
}

func byImageMagick(t *testing.T, dir string, file []byte) image.Image {
	t.Helper()
	in, out := filepath.Join(dir, "in.jpg"), filepath.Join(dir, "out.png")
	if err := os.WriteFile(in, file, 0o644); err != nil {
		t.Fatal(err)
	}
	if b, err := exec.Command("convert", in, "-auto-orient", "-strip", out).CombinedOutput(); err != nil {
		t.Fatalf("convert: %v\n%s", err, b)
	}
	b, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// TestNothingComesAlong: no metadata of any kind is in what is kept, only the segments
// that a JPEG decoder needs.
func TestNothingComesAlong(t *testing.T) {
	files := map[string][]byte{
		"jpeg": jpegOf(t, corner(), segment(0xE1, "Exif\x00\x00"+string(tiff(binary.BigEndian, 1))), segment(0xE1, "http://ns.adobe.com/xap/1.0/\x00<x>"+secret),
			segment(0xE2, "ICC_PROFILE\x00\x01\x01"+secret), segment(0xED, "Photoshop 3.0\x00"+secret), segment(0xFE, secret)),
		"png": pngOf(t, corner(), chunk("eXIf", tiff(binary.LittleEndian, 1)), chunk("tEXt", []byte("Comment\x00"+secret)), chunk("iTXt", []byte("XML:com.adobe.xmp\x00\x00\x00\x00\x00"+secret))),
	}
	for name, file := range files {
		p, err := Keep(t.Context(), append(file, secret...)) // and something after the end
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, out := range [][]byte{p.Full, p.Thumb} {
			for _, word := range []string{"Mill Lane", "Exif", "http", "ICC", "Photoshop", "xmp", "GPS"} {
				if bytes.Contains(out, []byte(word)) {
					t.Errorf("%s: %q was kept", name, word)
				}
			}
			for _, kind := range segments(t, out) { // tables, the frame and the data alone
				if kind != 0xDB && kind != 0xC0 && kind != 0xC4 && kind != 0xDA {
					t.Errorf("%s: a segment of kind %X", name, kind)
				}
			}
		}
	}
}

// segments lists the kinds of segment of a JPEG file up to its data.
func segments(t *testing.T, b []byte) (kinds []byte) {
	t.Helper()
	for i := 2; i+4 <= len(b); {
		if b[i] != 0xFF {
			t.Fatalf("no segment at %d", i)
		}
		kinds = append(kinds, b[i+1])
		if b[i+1] == 0xDA {
			return kinds
		}
		i += 2 + int(binary.BigEndian.Uint16(b[i+2:]))
	}
	t.Fatal("no data")
	return nil
}

func TestSizesKept(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 3000, 1500))
	p, err := Keep(t.Context(), jpegOf(t, img))
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		b    []byte
		w, h int
	}{{p.Full, 2048, 1024}, {p.Thumb, 320, 160}} {
		c, err := jpeg.DecodeConfig(bytes.NewReader(tt.b))
		if err != nil || c.Width != tt.w || c.Height != tt.h {
			t.Errorf("%d × %d, %v", c.Width, c.Height, err)
		}
	}
	if p.Width != 2048 || p.Height != 1024 || len(p.Digest()) != 64 {
		t.Errorf("%d × %d, %s", p.Width, p.Height, p.Digest())
	}
	small, err := Keep(t.Context(), pngOf(t, corner()))
	if err != nil || small.Width != 60 || small.Height != 40 {
		t.Errorf("a small picture became %d × %d, %v", small.Width, small.Height, err)
	}
}

// bomb is a PNG file whose header promises more than it would be wise to unpack.
func bomb(w, h uint32, depth, kind byte) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	return append([]byte("\x89PNG\r\n\x1a\n"), append(chunk("IHDR", append(head, depth, kind, 0, 0, 0)), chunk("IDAT", []byte{0x78, 0x9c, 0x03, 0x00, 0x00, 0x00, 0x00, 0x01})...)...)
}

func TestRefused(t *testing.T) {
	good := jpegOf(t, corner())
	for name, tt := range map[string]struct {
		file []byte
		says string
	}{
		"nothing":        {nil, "is empty"},
		"text":           {[]byte("a list of fabrics"), "JPEG, PNG or WebP"},
		"half a file":    {good[:len(good)/2], "broken"},
		"a header alone": {good[:20], "broken"},
		"a bomb":         {bomb(60000, 60000, 8, 2), "60000 × 60000"},
		"a deep bomb":    {bomb(7000, 7000, 16, 6), "7000 × 7000"},
		"a long bomb":    {bomb(1<<20, 10, 8, 2), "more than a photo"},
		"no pixels":      {bomb(0, 10, 8, 2), "broken"},
		"no data":        {bomb(10, 10, 8, 2), "broken"},
		"HEIF":           {append([]byte{0, 0, 0, 24}, "ftypheic\x00\x00\x00\x00mif1heic"...), "as JPEG"},
		"too many bytes": {make([]byte, MostBytes+1), "more than a photo"},
		"WebP, broken":   {[]byte("RIFF\x10\x00\x00\x00WEBPVP8 \x00\x00\x00\x00"), "broken"},
	} {
		_, err := Keep(t.Context(), tt.file)
		var e *stash.Error
		if !errors.As(err, &e) || e.Kind != stash.Unsupported || e.Do == "" || !strings.Contains(err.Error(), tt.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Keep(ctx, good); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// TestWebP reads a picture that ImageMagick wrote, if only to see that the format is there.
func TestWebP(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.png"), filepath.Join(dir, "out.webp")
	if err := os.WriteFile(in, pngOf(t, corner()), 0o644); err != nil {
		t.Fatal(err)
	}
	if b, err := exec.Command("convert", in, "-define", "webp:lossless=true", out).CombinedOutput(); err != nil {
		t.Fatalf("convert: %v\n%s", err, b)
	}
	file, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	img, err := Read(t.Context(), file)
	if err != nil || colours(img) != "rgbw" {
		t.Errorf("%v", err)
	}
	// The same with a chunk of metadata before its picture.
	exif := tiff(binary.LittleEndian, 3)
	body := append([]byte("EXIF"), binary.LittleEndian.AppendUint32(nil, uint32(len(exif)))...)
	body = append(body, exif...)
	if len(exif)%2 == 1 {
		body = append(body, 0)
	}
	if o := webpOrientation(append(append([]byte{}, file...), body...)); o != 3 {
		t.Errorf("orientation %d", o)
	}
}

func TestTransparentIsWhite(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 20, 20))
	got, err := Read(t.Context(), pngOf(t, img))
	if err != nil || got.RGBAAt(10, 10) != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("%v, %v", got.RGBAAt(10, 10), err)
	}
}

// FuzzKeep: no file makes it panic, and what it keeps is a picture that reads back.
func FuzzKeep(f *testing.F) {
	f.Add(jpegOf(f, corner(), segment(0xE1, "Exif\x00\x00"+string(tiff(binary.BigEndian, 6)))))
	f.Add(pngOf(f, corner(), chunk("eXIf", tiff(binary.LittleEndian, 8))))
	f.Add(bomb(60000, 60000, 8, 2))
	f.Add([]byte("RIFF\x10\x00\x00\x00WEBPVP8L\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, file []byte) {
		if c, err := check(file); err == nil {
			if s, err := c.config(bytes.NewReader(file)); err != nil || s.Width*s.Height > 1<<20 {
				return // right, but slow
			}
		}
		p, err := Keep(t.Context(), file)
		if err != nil {
			var e *stash.Error
			if !errors.As(err, &e) {
				t.Fatal(err)
			}
			return
		}
		for _, b := range [][]byte{p.Full, p.Thumb} {
			if _, err := Read(t.Context(), b); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// BenchmarkKeep is a photo of 12 megapixels.
func BenchmarkKeep(b *testing.B) {
	img := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	for i := range img.Pix {
		img.Pix[i] = uint8(i * i >> 7)
	}
	file := jpegOf(b, img)
	for b.Loop() {
		if _, err := Keep(b.Context(), file); err != nil {
			b.Fatal(err)
		}
	}
}
