package pdf

import (
	"bytes"
	"math"
	"strconv"
)

// kind of a token of a content stream.
type kind int

const (
	end kind = iota
	number
	name
	word // an operator
	text // a string, its bytes
	open1
	close1 // of an array or dictionary
)

type token struct {
	kind  kind
	value float64
	text  string
}

// lexer reads the tokens of a content stream (ISO 32000-1, 7.2 and 7.8.2).
type lexer struct {
	data []byte
	at   int
}

func space(c byte) bool {
	return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == 0
}

func delimiter(c byte) bool { return bytes.IndexByte([]byte("()<>[]{}/%"), c) >= 0 }

func (l *lexer) skip() {
	for l.at < len(l.data) {
		switch c := l.data[l.at]; {
		case space(c):
			l.at++
		case c == '%':
			for l.at < len(l.data) && l.data[l.at] != '\n' && l.data[l.at] != '\r' {
				l.at++
			}
		default:
			return
		}
	}
}

func (l *lexer) next() token {
	l.skip()
	if l.at >= len(l.data) {
		return token{}
	}
	c := l.data[l.at]
	switch c {
	case '(':
		return token{kind: text, text: l.literal()}
	case '/':
		l.at++
		return token{kind: name, text: unescaped(l.regular())}
	case '[', '{':
		l.at++
		return token{kind: open1, text: "["}
	case ']', '}':
		l.at++
		return token{kind: close1, text: "]"}
	case '<', '>':
		return l.angle(c)
	case ')':
		l.at++
		return token{kind: text}
	}
	w := l.regular()
	if v, ok := numeral(w); ok {
		return token{kind: number, value: v}
	}
	return token{kind: word, text: w}
}

// angle reads << and >>, and passes over a string in hexadecimal.
func (l *lexer) angle(c byte) token {
	if l.at+1 < len(l.data) && l.data[l.at+1] == c {
		l.at += 2
		if c == '<' {
			return token{kind: open1, text: "<<"}
		}
		return token{kind: close1, text: ">>"}
	}
	l.at++
	if c != '<' {
		return token{kind: text}
	}
	from := l.at
	if n := bytes.IndexByte(l.data[l.at:], '>'); n >= 0 {
		l.at += n + 1
		return token{kind: text, text: hexText(l.data[from : l.at-1])}
	}
	l.at = len(l.data)
	return token{kind: text}
}

// hexText are the bytes of a string in hexadecimal (7.3.4.3).
func hexText(data []byte) string {
	var out []byte
	half, odd := byte(0), false
	for _, c := range data {
		v, err := strconv.ParseUint(string(c), 16, 8)
		if err != nil {
			continue
		}
		if odd {
			out = append(out, half<<4|byte(v))
		}
		half, odd = byte(v), !odd
	}
	if odd {
		out = append(out, half<<4)
	}
	return string(out)
}

// literal reads a string in parentheses, which may nest (7.3.4.2).
func (l *lexer) literal() string {
	var out []byte
	deep := 0
	for ; l.at < len(l.data); l.at++ {
		c := l.data[l.at]
		switch c {
		case '\\':
			l.at++
			out = l.escape(out)
			continue
		case '(':
			if deep++; deep == 1 {
				continue
			}
		case ')':
			if deep--; deep == 0 {
				l.at++
				return string(out)
			}
		}
		out = append(out, c)
	}
	return string(out)
}

// escape reads what follows a backslash.
func (l *lexer) escape(out []byte) []byte {
	if l.at >= len(l.data) {
		return out
	}
	c := l.data[l.at]
	if i := bytes.IndexByte([]byte("nrtbf"), c); i >= 0 {
		return append(out, "\n\r\t\b\f"[i])
	}
	if c < '0' || c > '7' {
		if c == '\n' || c == '\r' {
			return out
		}
		return append(out, c)
	}
	v, n := 0, 0
	for ; n < 3 && l.at+n < len(l.data) && l.data[l.at+n] >= '0' && l.data[l.at+n] <= '7'; n++ {
		v = v*8 + int(l.data[l.at+n]-'0')
	}
	l.at += n - 1
	return append(out, byte(v))
}

func (l *lexer) regular() string {
	from := l.at
	for l.at < len(l.data) && !space(l.data[l.at]) && !delimiter(l.data[l.at]) {
		l.at++
	}
	return string(l.data[from:l.at])
}

// unescaped reads #20 in a name.
func unescaped(s string) string {
	if !bytes.ContainsRune([]byte(s), '#') {
		return s
	}
	var out []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '#' && i+2 < len(s) {
			if v, err := strconv.ParseUint(s[i+1:i+3], 16, 8); err == nil {
				out = append(out, byte(v))
				i += 2
				continue
			}
		}
		out = append(out, s[i])
	}
	return string(out)
}

func numeral(w string) (float64, bool) {
	if w == "" || !(w[0] >= '0' && w[0] <= '9' || w[0] == '.' || w[0] == '-' || w[0] == '+') {
		return 0, false
	}
	v, err := strconv.ParseFloat(w, 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, false
	}
	return v, true
}

// inline passes over the data of a picture inside the content, from ID to EI.
func (l *lexer) inline() {
	for l.at < len(l.data) {
		n := bytes.Index(l.data[l.at:], []byte("EI"))
		if n < 0 {
			l.at = len(l.data)
			return
		}
		at := l.at + n
		l.at = at + 2
		if at > 0 && space(l.data[at-1]) && (l.at >= len(l.data) || space(l.data[l.at])) {
			return
		}
	}
}
