package svg

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"golang.org/x/text/encoding/ianaindex"
)

// errBytes is what a limited source returns where the limit is passed.
var errBytes = errors.New("too many bytes")

// limited passes on at most left bytes.
type limited struct {
	from io.Reader
	left int64
}

// Read implements io.Reader; past the limit it returns errBytes.
func (l *limited) Read(p []byte) (int, error) {
	n, err := l.from.Read(p)
	if l.left -= int64(n); l.left < 0 {
		return 0, errBytes
	}
	return n, err
}

// source looks at the first bytes of a file, refuses what is clearly no SVG, unpacks
// compressed SVG, and limits what comes after. A file that can say its size is refused
// before it is read.
func source(r io.Reader, lim Limits) (io.Reader, error) {
	if f, ok := r.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if info, err := f.Stat(); err == nil && info.Size() > lim.Bytes {
			return nil, lim.tooLarge()
		}
	}
	b := bufio.NewReaderSize(&limited{r, lim.Bytes}, 64<<10)
	head, err := b.Peek(512)
	if err != nil && len(head) == 0 {
		if errors.Is(err, io.EOF) {
			return nil, unsupported("the file is empty", "Save the drawing again as SVG.")
		}
		return nil, fmt.Errorf("reading the drawing: %w", err)
	}
	if bytes.HasPrefix(head, []byte{0x1f, 0x8b}) {
		z, err := gzip.NewReader(b)
		if err != nil {
			return nil, fmt.Errorf("unpacking the drawing: %w", err)
		}
		return &limited{z, lim.Bytes}, nil
	}
	if kind := otherKind(head); kind != "" {
		return nil, unsupported("the file is not SVG, it looks like "+kind, saveAsSVG)
	}
	return b, nil
}

const saveAsSVG = "Open the drawing in a vector editor and save it as plain SVG."

// otherKind names a file by its first bytes, "" for text that may be SVG.
func otherKind(head []byte) string {
	for _, k := range []struct{ magic, name string }{
		{"%PDF", "a PDF"}, {"\x89PNG", "a PNG picture"}, {"\xff\xd8\xff", "a JPEG picture"},
		{"PK\x03\x04", "a packed archive"}, {"GIF8", "a GIF picture"}, {"%!PS", "PostScript"},
		{"SQLite format 3", "a library"},
	} {
		if bytes.HasPrefix(head, []byte(k.magic)) {
			return k.name
		}
	}
	if utf16 := bytes.HasPrefix(head, []byte{0xff, 0xfe}) || bytes.HasPrefix(head, []byte{0xfe, 0xff}); !utf16 && bytes.IndexByte(head, 0) >= 0 {
		return "something other than text"
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
