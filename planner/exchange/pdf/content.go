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
	text // a string, whatever it says
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
		l.literal()
		return token{kind: text}
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
	if c == '<' {
		if n := bytes.IndexByte(l.data[l.at:], '>'); n >= 0 {
			l.at += n + 1
		} else {
			l.at = len(l.data)
		}
	}
	return token{kind: text}
}

// literal passes over a string in parentheses, which may nest.
func (l *lexer) literal() {
	deep := 0
	for ; l.at < len(l.data); l.at++ {
		switch l.data[l.at] {
		case '\\':
			l.at++
		case '(':
			deep++
		case ')':
			if deep--; deep == 0 {
				l.at++
				return
			}
		}
	}
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
