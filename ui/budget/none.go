//go:build !budget || !linux

package budget

import (
	"fyne.io/fyne/v2"

	"tallycloth/ui/page"
)

// Start does nothing in a program that people use.
func Start(fyne.Window, *page.Names) {}
