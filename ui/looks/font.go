package looks

import (
	"encoding/binary"
	"sync"

	"fyne.io/fyne/v2"
)

// The toolkit prepares a font anew for every text that it measures or draws, and reads these tables
// for it whole, which takes ten times as long as the letters themselves. Neither is needed here: the distances
// between letters are in the table GPOS as well, and a ligature more or less is not seen at 13 units.
var heavy = map[string]bool{"kern": true, "GSUB": true}

var leaned sync.Map // fyne.Resource → *fyne.StaticResource

// lean is a font without the tables that cost much and give little on a screen. The same font
// gives the same answer, which is kept.
func lean(font fyne.Resource) fyne.Resource {
	if font == nil {
		return nil
	}
	if old, ok := leaned.Load(font); ok {
		return old.(fyne.Resource)
	}
	kept, _ := leaned.LoadOrStore(font, fyne.NewStaticResource(font.Name(), without(font.Content(), heavy)))
	return kept.(fyne.Resource)
}

const (
	fontHead  = 12 // bytes of a font before its directory of tables (OpenType, "Table Directory")
	fontEntry = 16 // bytes of a table in it: tag, sum, offset, length
)

// without is a font whose directory leaves some tables out; the rest stays where it is. What is no
// font with one directory comes back as it is.
func without(font []byte, tables map[string]bool) []byte {
	if len(font) < fontHead {
		return font
	}
	n := int(binary.BigEndian.Uint16(font[4:]))
	if kind := string(font[:4]); kind != "\x00\x01\x00\x00" && kind != "OTTO" || len(font) < fontHead+n*fontEntry {
		return font
	}
	out := append([]byte(nil), font...)
	kept := 0
	for i := range n {
		entry := font[fontHead+i*fontEntry:][:fontEntry]
		if !tables[string(entry[:4])] {
			copy(out[fontHead+kept*fontEntry:], entry)
			kept++
		}
	}
	binary.BigEndian.PutUint16(out[4:], uint16(kept))
	return out
}
