package garment

import "strings"

// Sized is the name of the garment with its size, said once: a name may say the size already.
func (g Garment) Sized() string {
	if g.Size == "" || strings.HasSuffix(g.Name, "size "+g.Size) || strings.Contains(g.Name, "size "+g.Size+",") || strings.Contains(g.Name, "size "+g.Size+" ") {
		return g.Name
	}
	return g.Name + ", size " + g.Size
}

// NamedFor is its name for another size: that size in place of its own, where its name says that.
func (g Garment) NamedFor(size string) string {
	if g.Size == "" {
		return g.Name
	}
	return strings.Replace(g.Name, "size "+g.Size, "size "+size, 1)
}
