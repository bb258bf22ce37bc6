package table

import "strings"

// formulaSigns begin what spreadsheet programs take for a formula, tab and line break
// included (OWASP, CSV Injection).
const formulaSigns = "=+-@\t\r\n＝＋－＠"

// risky says whether a text, blanks and apostrophes at its front apart, begins with such
// a sign.
func risky(s string) bool {
	s = strings.TrimLeft(s, "' \u00a0")
	for _, r := range s {
		return strings.ContainsRune(formulaSigns, r)
	}
	return false
}

// guarded puts an apostrophe before a text that could become a formula, and before one
// that looks as if that had been done, so that unguarded gives the text back.
func guarded(s string) string {
	if risky(s) {
		return "'" + s
	}
	return s
}

// unguarded takes the apostrophe off that guarded put there.
func unguarded(s string) string {
	if strings.HasPrefix(s, "'") && risky(s) {
		return s[1:]
	}
	return s
}
