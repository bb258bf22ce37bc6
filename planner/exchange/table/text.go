package table

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// decode returns a text as UTF-8 and the name of how it was written: with a byte order
// mark as that says (Unicode Standard, 23.8), else UTF-8 when every byte fits it, else
// Windows-1252. Lines of either kind in one file are decoded each as it is, with a
// warning.
func decode(data []byte) (text, encoding string, warnings []string, err error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		data = data[3:]
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		text, err = fromUTF16(data[2:], binary.LittleEndian)
		return text, "UTF-16", nil, err
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		text, err = fromUTF16(data[2:], binary.BigEndian)
		return text, "UTF-16", nil, err
	}
	if at := bytes.IndexByte(data, 0); at >= 0 {
		return "", "", nil, refused("Save the list as CSV in UTF-8, or as .xlsx", "Line %d holds what is no text", 1+bytes.Count(data[:at], []byte("\n")))
	}
	if utf8.Valid(data) {
		return string(data), "UTF-8", nil, nil
	}
	text, warnings = byLine(data)
	return text, "Windows-1252", warnings, nil
}

func fromUTF16(data []byte, order binary.ByteOrder) (string, error) {
	if len(data)%2 != 0 {
		return "", refused("Get the whole file again", "The file is cut off: it ends in the middle of a letter")
	}
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	text := string(utf16.Decode(units))
	if strings.ContainsRune(text, utf8.RuneError) {
		return "", refused("Save the list again as CSV in UTF-8", "The file says it is written in UTF-16, but some of its letters are none")
	}
	return text, nil
}

// byLine decodes what is not wholly UTF-8: as Windows-1252 (WHATWG Encoding Standard,
// index windows-1252), but lines that are UTF-8 with letters beyond ASCII stay so.
func byLine(data []byte) (string, []string) {
	var out strings.Builder
	out.Grow(len(data) + len(data)/8)
	decoder := charmap.Windows1252.NewDecoder()
	mixed, unknown := 0, 0
	for n := 1; len(data) > 0; n++ {
		end := bytes.IndexByte(data, '\n') + 1
		if end == 0 {
			end = len(data)
		}
		line := data[:end]
		data = data[end:]
		if utf8.Valid(line) {
			if mixed == 0 && bytes.ContainsFunc(line, func(r rune) bool { return r >= utf8.RuneSelf }) {
				mixed = n
			}
			out.Write(line)
			continue
		}
		s, err := decoder.Bytes(line)
		if err != nil || bytes.ContainsRune(s, utf8.RuneError) {
			unknown = n
		}
		out.Write(s)
	}
	var warnings []string
	if mixed > 0 {
		warnings = append(warnings, fmt.Sprintf("Some lines are written in UTF-8, line %d for one, others in Windows-1252: look whether all letters with accents are right.", mixed))
	}
	if unknown > 0 {
		warnings = append(warnings, fmt.Sprintf("Line %d has letters that are in no encoding this program knows; they are shown as %c.", unknown, utf8.RuneError))
	}
	return out.String(), warnings
}
