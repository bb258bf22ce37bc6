package main

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/stash/measure"
	"tallycloth/ui"
	"tallycloth/ui/page"
)

// look is the person's choices that change how screens look, and the screen they are shown on.
type look struct {
	theme    string
	text     int // percent
	size     fyne.Size
	scale    float32 // pixels for each unit of the window
	imperial bool
	brief    bool // layouts are searched for a few steps only
}

// String names the look, as in the names of pictures; what is usual is left out.
func (l look) String() string {
	s := fmt.Sprintf("%s-%.0f", l.theme, l.size.Width)
	if l.text != 100 {
		s += fmt.Sprintf("-text%d", l.text)
	}
	if l.scale != 1 {
		s += fmt.Sprintf("-scale%g", l.scale)
	}
	if l.imperial {
		s += "-inches"
	}
	return s
}

// choose keeps the choices in the library.
func (l look) choose(ctx context.Context, studio page.Studio) (planner.Settings, error) {
	set, err := studio.Settings(ctx)
	if err != nil {
		return set, err
	}
	set.DarkTheme, set.TextPercent, set.Units = l.theme, l.text, measure.Metric
	if l.theme == "contrast" {
		set.DarkTheme = ui.HighContrast
	}
	if l.imperial {
		set.Units = measure.Imperial
	}
	_, err = studio.Write(ctx, "Chose how it looks", func(tx planner.Tx) error { return tx.PutSettings(ctx, set) })
	return set, err
}

// looksOf are all looks of themes, sizes of the window and of the text, each a list with commas.
func looksOf(themes, sizes, texts string, scale float32, imperial bool) ([]look, error) {
	var out []look
	for _, theme := range strings.Split(themes, ",") {
		if theme != "light" && theme != "dark" && theme != "contrast" {
			return nil, fmt.Errorf("%q is no theme: light, dark or contrast", theme)
		}
		for _, size := range strings.Split(sizes, ",") {
			w, h, _ := strings.Cut(size, "x")
			wide, errW := strconv.ParseFloat(w, 32)
			high, errH := strconv.ParseFloat(h, 32)
			if err := errors.Join(errW, errH); err != nil {
				return nil, fmt.Errorf("%q is no size of a window, such as 1366x768: %w", size, err)
			}
			for _, text := range strings.Split(texts, ",") {
				percent, err := strconv.Atoi(text)
				if err != nil {
					return nil, fmt.Errorf("%q is no text size in percent: %w", text, err)
				}
				out = append(out, look{theme: theme, text: percent, size: fyne.NewSize(float32(wide), float32(high)), scale: scale, imperial: imperial})
			}
		}
	}
	return out, nil
}
