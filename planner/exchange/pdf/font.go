package pdf

import (
	"strings"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
	"golang.org/x/text/encoding/charmap"
)

// font is what of a font matters to what is written in it: the letters of its codes, and how wide they are
// (ISO 32000-1, 9.5 to 9.10).
type font struct {
	bytes  int // of a code
	to     map[int]string
	simple *charmap.Charmap // letters of a font of one byte that says no more; nil for none
	wide   map[int]float64  // in thousandths of the size
	usual  float64
}

// mostCodes are kept of a font.
const mostCodes = 70_000

// fontOf reads a font of the resources in force, once.
func (p *painter) fontOf(name string) *font {
	o, found := p.r.dict(p.res, "Font").Find(name)
	if !found {
		return nil
	}
	ref, is := o.(types.IndirectRef)
	if f, ok := p.r.fonts[ref]; is && ok {
		return f
	}
	d, err := p.r.x.DereferenceDict(o)
	if err != nil || d == nil {
		return nil
	}
	f := p.r.readFont(d)
	if is {
		p.r.fonts[ref] = f
	}
	return f
}

func (r *reader) readFont(d types.Dict) *font {
	f := &font{bytes: 1, to: map[int]string{}, wide: map[int]float64{}, usual: 500}
	if s := d.NameEntry("Subtype"); s != nil && *s == "Type0" {
		f.bytes, f.usual = 2, 1000
		r.wideCodes(f, d)
	} else {
		f.simple = charmap.Windows1252
		r.simpleCodes(f, d)
	}
	if o, ok := d.Find("ToUnicode"); ok {
		if s, _, err := r.x.DereferenceStreamDict(o); err == nil && s != nil && r.unpack(s) == nil {
			f.unicode(s.Content)
		}
	}
	return f
}

// wideCodes reads how wide the letters of a composite font are (9.7.4.3).
func (r *reader) wideCodes(f *font, d types.Dict) {
	list := r.array(d, "DescendantFonts")
	if len(list) == 0 {
		return
	}
	in, err := r.x.DereferenceDict(list[0])
	if err != nil || in == nil {
		return
	}
	if v, ok := r.number(in, "DW"); ok {
		f.usual = v
	}
	w := r.array(in, "W")
	for i := 0; i+1 < len(w) && len(f.wide) < mostCodes; {
		first, err := r.x.DereferenceNumber(w[i])
		if err != nil {
			return
		}
		if each, err := r.x.DereferenceArray(w[i+1]); err == nil && each != nil {
			for k, o := range each {
				if v, err := r.x.DereferenceNumber(o); err == nil {
					f.wide[int(first)+k] = v
				}
			}
			i += 2
			continue
		}
		if i+2 >= len(w) {
			return
		}
		last, err := r.x.DereferenceNumber(w[i+1])
		v, err2 := r.x.DereferenceNumber(w[i+2])
		if err != nil || err2 != nil {
			return
		}
		for k := int(first); k <= int(last) && len(f.wide) < mostCodes; k++ {
			f.wide[k] = v
		}
		i += 3
	}
}

// simpleCodes reads widths and the encoding of a font of one byte (9.6.2 and 9.6.6).
func (r *reader) simpleCodes(f *font, d types.Dict) {
	first, _ := r.number(d, "FirstChar")
	for k, o := range r.array(d, "Widths") {
		if v, err := r.x.DereferenceNumber(o); err == nil && k < 256 {
			f.wide[int(first)+k] = v
		}
	}
	if n := d.NameEntry("Encoding"); n != nil && *n == "MacRomanEncoding" {
		f.simple = charmap.Macintosh
	}
	e := r.dict(d, "Encoding")
	if n := e.NameEntry("BaseEncoding"); n != nil && *n == "MacRomanEncoding" {
		f.simple = charmap.Macintosh
	}
	code := 0
	for _, o := range r.array(e, "Differences") {
		if n, ok := o.(types.Name); ok {
			if s := letterNamed(n.Value()); s != "" {
				f.to[code] = s
			}
			code++
		} else if v, err := r.x.DereferenceNumber(o); err == nil {
			code = int(v)
		}
	}
}

// letterNames are names of letters longer than one sign that names of pieces have.
var letterNames = map[string]string{
	"space": " ", "hyphen": "-", "minus": "-", "period": ".", "comma": ",", "slash": "/", "parenleft": "(", "parenright": ")", "colon": ":", "quotesingle": "'",
	"zero": "0", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ampersand": "&", "plus": "+",
	"adieresis": "ä", "odieresis": "ö", "udieresis": "ü", "Adieresis": "Ä", "Odieresis": "Ö", "Udieresis": "Ü", "germandbls": "ß", "eacute": "é", "egrave": "è",
}

func letterNamed(name string) string {
	if len(name) == 1 {
		return name
	}
	return letterNames[name]
}

// unicode reads which letters codes are (9.10.3).
func (f *font) unicode(text []byte) {
	l := lexer{data: text}
	var args []token
	for {
		t := l.next()
		switch {
		case t.kind == end:
			return
		case t.kind != word:
			if len(args) < 4*mostCodes {
				args = append(args, t)
			}
			continue
		case t.text == "endbfchar":
			for i := 0; i+1 < len(args) && len(f.to) < mostCodes; i += 2 {
				f.to[codeOf(args[i].text)] = utf16Text(args[i+1].text)
			}
		case t.text == "endbfrange":
			f.ranges(args)
		}
		args = args[:0]
	}
}

// ranges reads first, last and either the letter of the first or a list of all.
func (f *font) ranges(args []token) {
	for i := 0; i+2 < len(args) && len(f.to) < mostCodes; {
		first, last := codeOf(args[i].text), codeOf(args[i+1].text)
		i += 2
		if args[i].kind == open1 {
			for i++; i < len(args) && args[i].kind != close1; i++ {
				f.to[first] = utf16Text(args[i].text)
				first++
			}
			i++
			continue
		}
		letter := []rune(utf16Text(args[i].text))
		i++
		for k := first; k <= last && len(letter) > 0 && len(f.to) < mostCodes; k++ {
			f.to[k] = string(letter)
			letter[len(letter)-1]++
		}
	}
}

func codeOf(bytes string) int {
	v := 0
	for i := range min(len(bytes), 4) {
		v = v<<8 | int(bytes[i])
	}
	return v
}

func utf16Text(bytes string) string {
	var units []uint16
	for i := 0; i+1 < len(bytes); i += 2 {
		units = append(units, uint16(bytes[i])<<8|uint16(bytes[i+1]))
	}
	return string(utf16.Decode(units))
}

// read goes through a string code by code: its letters, "" where they are not known, and its width.
func (f *font) read(text string, each func(letters string, space bool, wide float64)) {
	for len(text) >= f.bytes {
		code := codeOf(text[:f.bytes])
		s, ok := f.to[code]
		if !ok && f.simple != nil {
			s = string(f.simple.DecodeByte(text[0]))
		}
		w, ok := f.wide[code]
		if !ok {
			w = f.usual
		}
		each(strings.Map(shown, s), f.bytes == 1 && code == ' ', w)
		text = text[f.bytes:]
	}
}

// shown drops signs that are none.
func shown(r rune) rune {
	if r < ' ' || r == 0xfffd {
		return -1
	}
	return r
}
