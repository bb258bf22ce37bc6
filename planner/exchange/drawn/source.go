package drawn

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"regexp"
)

// ErrBytes is what a limited source returns where the limit is passed.
var ErrBytes = errors.New("too many bytes")

// limited passes on at most left bytes.
type limited struct {
	from io.Reader
	left int64
}

// Limited passes on at most so many bytes; past them it returns ErrBytes.
func Limited(r io.Reader, bytes int64) io.Reader { return &limited{r, bytes} }

// Read implements io.Reader.
func (l *limited) Read(p []byte) (int, error) {
	n, err := l.from.Read(p)
	if l.left -= int64(n); l.left < 0 {
		return 0, ErrBytes
	}
	return n, err
}

// Open limits a file and looks at its first bytes, which may be fewer than 512. A file
// that can say its size is refused before it is read; an empty one is an error as well.
// format is what the person is told to save it as.
func Open(r io.Reader, lim Limits, format string) (*bufio.Reader, []byte, error) {
	if f, ok := r.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if info, err := f.Stat(); err == nil && info.Size() > lim.Bytes {
			return nil, nil, lim.TooLarge()
		}
	}
	b := bufio.NewReaderSize(Limited(r, lim.Bytes), 64<<10)
	head, err := b.Peek(512)
	switch {
	case len(head) > 0:
		return b, head, nil
	case errors.Is(err, io.EOF):
		return nil, nil, Unsupported("the file is empty", "Save the drawing again as "+format+".")
	case errors.Is(err, ErrBytes):
		return nil, nil, lim.TooLarge()
	}
	return nil, nil, fmt.Errorf("reading the drawing: %w", err)
}

// OtherKind names a file by its first bytes, "" for what may be text.
func OtherKind(head []byte) string {
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
	return ""
}

var automatic = regexp.MustCompile(`^(id|path|rect|circle|ellipse|polygon|polyline|line|use|g|svg|group|layer|shape)?[-_]?[0-9]+([-_][0-9]+)*$`)

// Automatic says whether a name is one that editors give by themselves: path12.
func Automatic(name string) bool { return automatic.MatchString(name) }
