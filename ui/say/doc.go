// Package say answers one question: how is it put to a person? It turns errors,
// verdicts, reasons and quantities into the sentences and figures on screen, and
// is the only place of the window that does. It must not know the toolkit.
// Open verdict.go first.
package say
