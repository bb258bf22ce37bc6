package verb

import (
	"errors"
	"fmt"
	"strings"

	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/ui/say"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// answeredNo ends a verb whose answer was given and is "no".
type answeredNo struct{}

func (*answeredNo) Error() string { return "no cloth is enough" }

// typed is trouble with what was typed rather than with the library. The field is the
// option it stood behind, or "".
type typed struct {
	error
	field string
}

func (t typed) Unwrap() error { return t.error }

// mistyped returns an error for what was typed.
func mistyped(what, do string) error {
	return typed{error: &stash.Error{Kind: stash.Invalid, What: what, Do: do}}
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

// sentence puts an error to a person, in one line.
func sentence(err error) string {
	s := say.Error(err)
	if errors.Is(err, stash.ErrNothing) {
		s = "There is nothing to take back or to do again."
	}
	var t typed
	if errors.As(err, &t) && t.field != "" {
		s = say.Sentence(t.field + " " + s)
	}
	var c closed
	if errors.As(err, &c) && c.folder != "" {
		s += " The library is in " + c.folder + "."
	}
	return strings.ReplaceAll(s, "\n", " ")
}
