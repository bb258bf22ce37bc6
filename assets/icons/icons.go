package icons

import "embed"

// Files holds every icon as NAME.svg: 24 × 24, filled with one colour that the
// window replaces by the colour of its text.
//
//go:embed *.svg
var Files embed.FS

// Named returns the icon of that name as SVG, or nil when there is none.
func Named(name string) []byte {
	b, err := Files.ReadFile(name + ".svg")
	if err != nil {
		return nil
	}
	return b
}
