package svg

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"

	"tallycloth/planner/exchange/drawn"

	"golang.org/x/text/encoding/ianaindex"
)

// source looks at the first bytes of a file, refuses what is clearly no SVG, unpacks
// compressed SVG, and limits what comes after.
func source(r io.Reader, lim drawn.Limits) (io.Reader, error) {
	b, head, err := drawn.Open(r, lim, "SVG")
	if err != nil {
		return nil, err
	}
	if bytes.HasPrefix(head, []byte{0x1f, 0x8b}) {
		z, err := gzip.NewReader(b)
		if err != nil {
			return nil, fmt.Errorf("unpacking the drawing: %w", err)
		}
		return drawn.Limited(z, lim.Bytes), nil
	}
	if kind := otherKind(head); kind != "" {
		return nil, drawn.Unsupported("the file is not SVG, it looks like "+kind, saveAsSVG)
	}
	return b, nil
}

const saveAsSVG = "Open the drawing in a vector editor and save it as plain SVG."

// otherKind names a file by its first bytes, "" for text that may be SVG.
func otherKind(head []byte) string {
	if kind := drawn.OtherKind(head); kind != "" {
		return kind
	}
	if text := bytes.TrimLeft(head, "\ufeff \t\r\n"); len(text) > 0 && text[0] != '<' && bytes.IndexByte(head, '<') < 0 {
		return "plain text"
	}
	return ""
}

// charset reads files in the older encodings that editors still write.
func charset(label string, r io.Reader) (io.Reader, error) {
	e, err := ianaindex.IANA.Encoding(label)
	if err != nil || e == nil {
		return nil, fmt.Errorf("its letters are in %q", label)
	}
	return e.NewDecoder().Reader(r), nil
}
