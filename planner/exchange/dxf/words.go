package dxf

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
)

// pages are the code pages of older files; text of newer ones is UTF-8.
var pages = map[string]encoding.Encoding{
	"1250": charmap.Windows1250, "1251": charmap.Windows1251, "1252": charmap.Windows1252, "1253": charmap.Windows1253,
	"1254": charmap.Windows1254, "1255": charmap.Windows1255, "1256": charmap.Windows1256, "1257": charmap.Windows1257,
	"1258": charmap.Windows1258, "874": charmap.Windows874,
}

// decode turns every text and name of the file into UTF-8.
func (p *parser) decode() {
	d := decoder{pages["1252"].NewDecoder()}
	p.file.Header.Encoding = "1252"
	if page, ok := pages[strings.TrimPrefix(strings.ToUpper(p.codepage), "ANSI_")]; ok {
		d.old, p.file.Header.Encoding = page.NewDecoder(), strings.TrimPrefix(strings.ToUpper(p.codepage), "ANSI_")
	}
	if p.version >= "AC1021" {
		p.file.Header.Encoding = "UTF-8"
	}
	for i := range p.file.Blocks {
		d.entities(p.file.Blocks[i].Entities)
		p.file.Blocks[i].Name = d.text(p.file.Blocks[i].Name)
	}
	d.entities(p.file.Entities)
	byName := map[string]int{}
	for i := len(p.file.Blocks) - 1; i >= 0; i-- {
		byName[key(p.file.Blocks[i].Name)] = i
	}
	p.file.byName = byName
	for name := range p.file.Hidden {
		p.file.Hidden[d.text(name)] = true
	}
}

type decoder struct{ old *encoding.Decoder }

func (d decoder) entities(all []Entity) {
	for i := range all {
		e := &all[i]
		e.Layer, e.Block = d.text(e.Layer), d.text(e.Block)
		switch e.Kind {
		case "MTEXT":
			e.Text = d.text(plainText(e.Text))
		case "TEXT", "ATTRIB":
			e.Text = d.text(signs(e.Text))
		}
	}
}

// text is UTF-8 of what may be in an older encoding, with characters given by number (\U+00E9) written out.
func (d decoder) text(s string) string {
	if !utf8.ValidString(s) {
		if t, err := d.old.String(s); err == nil {
			s = t
		}
		s = strings.ToValidUTF8(s, "\uFFFD")
	}
	if !strings.Contains(s, `\U+`) {
		return s
	}
	var out strings.Builder
	var units []uint16
	flush := func() {
		out.WriteString(string(utf16.Decode(units)))
		units = units[:0]
	}
	for len(s) > 0 {
		if strings.HasPrefix(s, `\U+`) && len(s) >= 7 {
			if n, err := strconv.ParseUint(s[3:7], 16, 16); err == nil {
				units, s = append(units, uint16(n)), s[7:]
				continue
			}
		}
		flush()
		out.WriteByte(s[0])
		s = s[1:]
	}
	flush()
	return out.String()
}

// escaped is text in 7-bit letters on one line, the reverse of text.
func escaped(s string) string {
	var out strings.Builder
	for _, r := range s {
		switch {
		case r < ' ':
			out.WriteByte(' ')
		case r < 127 && r != '\\' && r != '%': // those two may begin codes
			out.WriteRune(r)
		default:
			for _, u := range utf16.Encode([]rune{r}) {
				out.WriteString(`\U+` + strings.ToUpper(strconv.FormatUint(0x10000|uint64(u), 16)[1:]))
			}
		}
	}
	return strings.TrimSpace(out.String())
}

var codes = strings.NewReplacer("%%d", "°", "%%D", "°", "%%p", "±", "%%P", "±", "%%c", "⌀", "%%C", "⌀", "%%u", "", "%%U", "", "%%o", "", "%%O", "")

// signs writes out the codes for signs and drops those for lines under and over words.
func signs(s string) string { return strings.TrimSpace(codes.Replace(s)) }

// plainText drops the formatting of a text of several lines; lines are parted by \n.
func plainText(s string) string {
	var out strings.Builder
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c == '{' || c == '}' {
			continue
		}
		if c != '\\' || i+1 == len(s) {
			out.WriteByte(c)
			continue
		}
		i++
		switch s[i] {
		case 'P', 'n':
			out.WriteByte('\n')
		case '~':
			out.WriteByte(' ')
		case '\\', '{', '}':
			out.WriteByte(s[i])
		case 'U': // a letter by its number, read later
			out.WriteString(`\U`)
		case 'L', 'l', 'O', 'o', 'K', 'k':
		default: // \f…; \H…; and their like
			if end := strings.IndexByte(s[i:], ';'); end >= 0 {
				i += end
			}
		}
	}
	return signs(out.String())
}
