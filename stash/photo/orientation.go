package photo

import (
	"bytes"
	"encoding/binary"
	"image"
)

// upright turns a picture by its orientation as CIPA DC-008 (Exif 2.32), 4.6.5, table 18
// gives it: 1 is upright, 2 mirrored, 3 upside down, 4 both; 5 to 8 lie on their side.
func upright(img *image.RGBA, orientation int) *image.RGBA {
	if orientation < 2 || orientation > 8 {
		return img
	}
	w, h := img.Rect.Dx(), img.Rect.Dy()
	ow, oh := w, h
	if orientation > 4 {
		ow, oh = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, ow, oh))
	for y := range oh {
		for x := range ow {
			sx, sy := source(orientation, x, y, w, h)
			copy(out.Pix[y*out.Stride+4*x:][:4], img.Pix[sy*img.Stride+4*sx:][:4])
		}
	}
	return out
}

// source is where the pixel at x, y of the upright picture lies in one of w × h that was
// stored.
func source(orientation, x, y, w, h int) (int, int) {
	switch orientation {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6: // stored row 0 is the right side
		return y, h - 1 - x
	case 7:
		return w - 1 - y, h - 1 - x
	case 8:
		return w - 1 - y, x
	}
	return x, y
}

// jpegOrientation looks through the segments before the picture's data for one of
// metadata (Exif 2.32, 4.5.4); 1 where there is none.
func jpegOrientation(b []byte) int {
	for i := 2; i+4 <= len(b) && b[i] == 0xFF; {
		kind := b[i+1]
		if kind == 0xFF { // filling
			i++
			continue
		}
		if kind == 0xDA || kind == 0xD9 {
			break
		}
		if kind >= 0xD0 && kind <= 0xD7 || kind == 0x01 {
			i += 2
			continue
		}
		n := int(binary.BigEndian.Uint16(b[i+2:]))
		if n < 2 || i+2+n > len(b) {
			break
		}
		if body, ok := bytes.CutPrefix(b[i+4:i+2+n], []byte("Exif\x00\x00")); kind == 0xE1 && ok {
			return tiffOrientation(body)
		}
		i += 2 + n
	}
	return 1
}

// pngOrientation looks for the chunk eXIf (PNG third edition, 11.3.4.5).
func pngOrientation(b []byte) int {
	for i := 8; i+12 <= len(b); {
		n := int(binary.BigEndian.Uint32(b[i:]))
		if n < 0 || n > len(b)-i-12 {
			break
		}
		if string(b[i+4:i+8]) == "eXIf" {
			return tiffOrientation(b[i+8 : i+8+n])
		}
		i += 12 + n
	}
	return 1
}

// webpOrientation looks for the chunk EXIF (RFC 9649, 2.7.1.5).
func webpOrientation(b []byte) int {
	for i := 12; i+8 <= len(b); {
		n := int(binary.LittleEndian.Uint32(b[i+4:]))
		if n < 0 || n > len(b)-i-8 {
			break
		}
		if string(b[i:i+4]) == "EXIF" {
			body, _ := bytes.CutPrefix(b[i+8:i+8+n], []byte("Exif\x00\x00"))
			return tiffOrientation(body)
		}
		i += 8 + n + n&1
	}
	return 1
}

// tiffOrientation reads the tag Orientation, 274, of the first directory (TIFF 6.0,
// section 2; Exif 2.32, 4.6.4 A); 1 where it is missing or makes no sense.
func tiffOrientation(b []byte) int {
	if len(b) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(b[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return 1
	}
	entries := int64(order.Uint16(b[at:]))
	for i := range entries {
		e := at + 2 + 12*i
		if e+12 > int64(len(b)) {
			return 1
		}
		const orientation, short = 274, 3
		if order.Uint16(b[e:]) == orientation && order.Uint16(b[e+2:]) == short && order.Uint32(b[e+4:]) == 1 {
			if v := int(order.Uint16(b[e+8:])); v >= 1 && v <= 8 {
				return v
			}
			return 1
		}
	}
	return 1
}
