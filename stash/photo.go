package stash

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"unicode/utf8"
)

// PhotoOf is the kind of record that a photo is of.
type PhotoOf string

// What photos can be of.
const (
	OfFabric   PhotoOf = "fabric"
	OfCloth    PhotoOf = "cloth"
	OfPurchase PhotoOf = "purchase"
	OfGarment  PhotoOf = "garment"
)

// PhotoKind is what a photo shows.
type PhotoKind string

// The kinds of photo.
const (
	Swatch    PhotoKind = "swatch"
	ClothSeen PhotoKind = "cloth"   // the cloth as it lies
	Receipt   PhotoKind = "receipt" // of a purchase
	Scrap     PhotoKind = "scrap"   // a test scrap, of a stitch that worked
	Worn      PhotoKind = "garment"
)

// PhotoKinds are the kinds in the order in which they are offered.
var PhotoKinds = []PhotoKind{Swatch, ClothSeen, Receipt, Scrap, Worn}

// Photo says what a picture is of. The picture itself is kept once under its digest and
// read by Reader.Picture alone; no list loads it.
type Photo struct {
	ID     ID
	Of     PhotoOf
	OfID   ID
	Kind   PhotoKind
	Stitch int // for a test scrap: which of the fabric's stitch notes, from 1; 0 none in particular
	Digest string
	Width  int // of the full picture, in pixels
	Height int
	Note   string
	At     Date
	Gone   bool // taken away; the picture is kept, so that this can be undone
}

// Picture is a picture as it is kept: upright JPEG files without metadata.
type Picture struct {
	Full, Thumb   []byte
	Width, Height int // of Full, in pixels
}

// Digest names a picture by its content: SHA-256 (FIPS 180-4) of the full picture, in
// hexadecimal.
func (p Picture) Digest() string {
	sum := sha256.Sum256(p.Full)
	return hex.EncodeToString(sum[:])
}

// Bounds of what is kept, in bytes.
const (
	MostPicture = 8 << 20
	MostThumb   = 256 << 10
)

// Validate says what cannot be about a picture.
func (p Picture) Validate() error {
	switch {
	case len(p.Full) == 0 || len(p.Thumb) == 0 || p.Width < 1 || p.Height < 1:
		return invalid("Choose another file", "There is no picture")
	case len(p.Full) > MostPicture || len(p.Thumb) > MostThumb:
		return invalid("Make it smaller first", "The picture is too large to keep")
	}
	return nil
}

// Validate says what cannot be about a photo: nil, or an Error of kind Invalid.
func (p Photo) Validate() error {
	known := false
	for _, k := range PhotoKinds {
		known = known || k == p.Kind
	}
	digest, err := hex.DecodeString(p.Digest)
	switch {
	case p.ID == NoID || p.OfID == NoID:
		return invalid("Say of what it is", "The photo has no number of its own, or is of nothing")
	case p.Of != OfFabric && p.Of != OfCloth && p.Of != OfPurchase && p.Of != OfGarment:
		return invalid("Choose a fabric, a cloth, a purchase or a garment", "A photo cannot be of a %q", p.Of)
	case !known:
		return invalid("Choose swatch, cloth, receipt, scrap or garment", "%q is no kind of photo", p.Kind)
	case err != nil || len(digest) != sha256.Size || p.Digest != strings.ToLower(p.Digest):
		return invalid("", "The photo names no picture")
	case p.Width < 1 || p.Height < 1 || p.Stitch < 0:
		return invalid("", "The photo has no size or an impossible stitch note")
	case p.At != "" && !p.At.Valid():
		return invalid("Write it as 2006-01-02", "%q is not a day", p.At)
	case !utf8.ValidString(p.Note) || len(p.Note) > 2000:
		return invalid("Make it shorter", "The note on a photo is too long")
	}
	return nil
}
