package page

import (
	"strings"

	"tallycloth/stash"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// DayField is a line for a day in any form that cannot be misread, shown back with its month in
// words; on stands in it at first, "" leaves it empty.
func (h *Host) DayField(name string, on stash.Date) *widgets.Field {
	f := widgets.NewField(name, "15 March 2026", func(text string) (string, error) {
		d, err := stash.ParseDay(text, h.Studio.Today())
		if err != nil {
			return "", err
		}
		return "= " + say.Day(d), nil
	})
	f.Set(say.Day(on))
	return f
}

// DayIn is the day in such a line, "" where it is empty; ok is false while it cannot be read.
func (h *Host) DayIn(f *widgets.Field) (d stash.Date, ok bool) {
	text := strings.TrimSpace(f.Text())
	if text == "" {
		return "", true
	}
	d, err := stash.ParseDay(text, h.Studio.Today())
	return d, err == nil
}
