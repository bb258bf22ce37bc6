//go:build !cgo

package main

import (
	"context"
	"errors"
)

// open cannot show a window in a build without C.
func open(context.Context, look) error {
	return errors.New("this build draws pictures only: use -shots DIR")
}
