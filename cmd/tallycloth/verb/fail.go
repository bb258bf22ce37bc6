package verb

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"tallycloth/stash"
	"tallycloth/stash/measure"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// answeredNo ends a verb whose answer was given and is "no".
type answeredNo struct{}

func (*answeredNo) Error() string { return "no cloth is enough" }

// typed is trouble with what was typed rather than with the library.
type typed struct{ error }

func (t typed) Unwrap() error { return t.error }

// mistyped returns an error for what was typed.
func mistyped(what, do string) error {
	return typed{&stash.Error{Kind: stash.Invalid, What: what, Do: do}}
}

// closed is trouble with opening the library.
type closed struct {
	error
	folder string
}

func (c closed) Unwrap() error { return c.error }

// exitCode returns the code for an error of a verb.
func exitCode(err error) int {
	var t typed
	var c closed
	var text *measure.TextError
	var own *stash.Error
	switch {
	case errors.As(err, &c):
		return NoAccess
	case errors.As(err, &t), errors.As(err, &text):
		return Mistyped
	case errors.As(err, &own) && own.Kind == stash.Invalid:
		return Mistyped
	}
	return Failed
}

// optionError says in plain words what is wrong with an option.
func optionError(cmd *cobra.Command, err error) error {
	see := "See " + cmd.CommandPath() + " --help for what can be said"
	var unknown *pflag.NotExistError
	var value *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	switch {
	case errors.As(err, &unknown):
		return mistyped(fmt.Sprintf("There is no option %q here", unknown.GetSpecifiedName()), see)
	case errors.As(err, &missing):
		return mistyped(fmt.Sprintf("The option --%s needs something after it", missing.GetSpecifiedName()), see)
	case errors.As(err, &value) && value.GetFlag().Value.Type() == "int":
		return mistyped(fmt.Sprintf("%q is no number for --%s", value.GetValue(), value.GetFlag().Name), "Write a whole number")
	case errors.As(err, &value):
		return mistyped(fmt.Sprintf("%q cannot be said with --%s", value.GetValue(), value.GetFlag().Name), see)
	}
	return mistyped(err.Error(), see)
}

// sentence writes an error in plain sentences, its last one ended.
func sentence(err error) string {
	s := strings.TrimSpace(err.Error())
	var own *stash.Error
	if errors.As(err, &own) {
		s = join(capital(own.What), capital(own.Do))
	}
	if errors.Is(err, stash.ErrNothing) {
		s = "There is nothing to take back or to do again"
	}
	var c closed
	if errors.As(err, &c) && c.folder != "" {
		s = join(s, "The library is in "+c.folder)
	}
	return join(capital(s), "")
}

// join puts two sentences behind each other, each with its full stop.
func join(a, b string) string {
	for _, s := range []*string{&a, &b} {
		if *s = strings.TrimSpace(*s); *s != "" && !strings.ContainsAny((*s)[len(*s)-1:], ".!?") {
			*s += "."
		}
	}
	return strings.TrimSpace(a + " " + b)
}

// capital makes a clause begin like a sentence.
func capital(s string) string {
	if s == "" {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
