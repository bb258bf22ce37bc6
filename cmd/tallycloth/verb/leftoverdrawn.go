package verb

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"tallycloth/planner"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"

	"github.com/spf13/cobra"
)

// drawnOutline are the options of leftover for an outline corner by corner.
type drawnOutline struct {
	outline string
	holes   []string
}

func (d *drawnOutline) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&d.outline, "outline", "", `corners all round, as "x,y x,y x,y", x along the grain`)
	cmd.Flags().StringArrayVar(&d.holes, "hole", nil, "with --outline: corners of a hole or flaw (may be said again)")
}

// read is the outline in the frame of the cloth; numbers are in the unit.
func (d *drawnOutline) read(unit measure.Unit) (shape.Polygon, error) {
	var rings []shape.Ring
	for i, text := range append([]string{d.outline}, d.holes...) {
		option := "--outline"
		if i > 0 {
			option = "--hole"
		}
		r, err := cornersIn(option, text, unit)
		if err != nil {
			return shape.Polygon{}, err
		}
		rings = append(rings, r)
	}
	return planner.OutlineOf(rings)
}

func cornersIn(option, text string, unit measure.Unit) (shape.Ring, error) {
	var r shape.Ring
	for _, word := range strings.Fields(text) {
		x, y, ok := strings.Cut(word, ",")
		a, err1 := strconv.ParseFloat(x, 64)
		b, err2 := strconv.ParseFloat(y, 64)
		const most = 10_000
		if !ok || err1 != nil || err2 != nil || !(math.Abs(a) <= most && math.Abs(b) <= most) {
			return nil, mistyped(fmt.Sprintf("%q after %s is no corner", word, option), `Write corners like "0,0 60,0 45,40", with points in decimals`)
		}
		r = append(r, shape.Point{X: int64(math.Round(a * float64(unit))), Y: int64(math.Round(b * float64(unit)))})
	}
	return r, nil
}
