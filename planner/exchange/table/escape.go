package table

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"
)

// A workbook stores a sign that XML 1.0 (2.2) cannot hold as _xHHHH_, and a text that
// would be read as such with its first sign so: _x005F_xHHHH_ (ECMA-376 part 1,
// 22.9.2.19). The spreadsheet library escapes some of these texts and loses others, so
// that storable writes the two underscores as signs of private use, which the library
// leaves alone, and settleEscapes exchanges them in what the library has written.
const (
	escapeOpen  = '\ue0f1'
	escapeClose = '\ue0f2'
)

var looksEscaped = regexp.MustCompile(`^_x[0-9a-fA-F]{4}_`)

// storable returns a text as it is handed to the library, and whether settleEscapes has
// to be called for it. What is not UTF-8 becomes U+FFFD.
func storable(s string) (out string, escaped bool) {
	s = strings.ToValidUTF8(s, string(utf8.RuneError))
	var b strings.Builder
	for i, r := range s {
		if (r == '_' && looksEscaped.MatchString(s[i:])) || !inXML(r) || r == escapeOpen || r == escapeClose {
			fmt.Fprintf(&b, "%cx%04X%c", escapeOpen, r, escapeClose)
			escaped = true
			continue
		}
		b.WriteRune(r)
	}
	return b.String(), escaped
}

// inXML says whether a document of XML 1.0 can hold a sign as it is. A carriage return
// it would hold as a line break, so that is escaped as well.
func inXML(r rune) bool {
	return r == '\t' || r == '\n' || r >= ' ' && r != 0xfffe && r != 0xffff
}

// settleEscapes writes a workbook with the underscores of escapes in its sheets.
func settleEscapes(w io.Writer, book []byte) error {
	in, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		return err
	}
	out := zip.NewWriter(w)
	for _, part := range in.File {
		if !strings.HasPrefix(part.Name, "xl/worksheets/") {
			err = out.Copy(part)
		} else {
			err = settlePart(out, part)
		}
		if err != nil {
			return err
		}
	}
	return out.Close()
}

func settlePart(out *zip.Writer, part *zip.File) error {
	r, err := part.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	xml, err := io.ReadAll(r)
	if err != nil {
		return err
	}
	to, err := out.Create(part.Name)
	if err != nil {
		return err
	}
	for _, sign := range []rune{escapeOpen, escapeClose} {
		xml = bytes.ReplaceAll(xml, []byte(string(sign)), []byte("_"))
	}
	_, err = to.Write(xml)
	return err
}
