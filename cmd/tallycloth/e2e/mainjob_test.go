//go:build e2e

package e2e

import (
	"path/filepath"
	"strings"
	"testing"
)

func TestMainJobByMouse(t *testing.T)    { mainJob(t, mouse{}) }
func TestMainJobByKeyboard(t *testing.T) { mainJob(t, keyboard{}) }

// mainJob goes from an empty shelf to a garment with its fabric and its strips
// reserved, taking each step back and doing it again, and looks at the library's file
// after every step.
func mainJob(t *testing.T, h hands) {
	s := newStudio(t)
	s.picture("1-empty")
	logPurchase(s, h)
	bringIn(s, h)
	findAndReserve(s, h)
	releaseAndUndo(s, h)
	reserveStrips(s, h)
	s.close()
	s.holds("what SQLite thinks", "PRAGMA integrity_check", "ok")
	s.holds("what refers to nothing", "SELECT count(*) FROM pragma_foreign_key_check", "0")
}

func logPurchase(s *studio, h hands) {
	s.t.Helper()
	h.press(s, "stash.first")
	for _, line := range [][2]string{
		{"form.name", "Moss jersey"}, {"form.width", "150 cm"}, {"form.length", "2 1/4 yd"},
		{"form.fibres", "95% cotton 5% elastane"}, {"form.price", "24.50"}, {"form.shop", "Saturday market"},
	} {
		h.put(s, line[0], line[1])
	}
	s.picture("2-purchase")
	h.press(s, "form.send")
	s.says("Logged", "Moss jersey")
	// 2 1/4 yd of 0.9144 m (NIST SP 811, appendix B) are 2 057 400 µm.
	s.holds("the length", "SELECT length, width FROM cloth", "2057400|1500000")
	s.holds("the price", "SELECT price, currency FROM purchase_line", "2450|EUR")
	s.holds("its history", "SELECT kind FROM movement", "bought")
	s.picture("3-shelf")
}

func bringIn(s *studio, h hands) {
	s.t.Helper()
	file, err := filepath.Abs(filepath.Join("testdata", "tank.svg"))
	if err != nil {
		s.t.Fatal(err)
	}
	h.place(s, "patterns")
	h.press(s, "patterns.first")
	h.put(s, "outlines.file", file)
	s.screen.key(s.t, "Return")
	h.press(s, "outlines.right")
	h.put(s, "outlines.name", "River tank")
	h.put(s, "outlines.size", "M")
	s.picture("4-outlines")
	h.press(s, "outlines.save")
	s.await("patterns.list", "has the pattern", func(w widget) bool { return w.Visible && len(w.Rows) == 1 && strings.Contains(w.Rows[0], "River tank") })
	s.holds("the pattern", "SELECT name FROM pattern WHERE present", "River tank")
	s.picture("5-pattern")
}

func findAndReserve(s *studio, h hands) {
	s.t.Helper()
	h.row(s, "patterns.list", 0)
	h.press(s, "pattern.find")
	s.await("find.state", "has compared the shelf", func(w widget) bool { return w.Visible && strings.Contains(w.Text, "1 of 1") })
	s.await("find.list", "says enough", func(w widget) bool { return len(w.Rows) == 1 && strings.Contains(w.Rows[0], "Enough") && w.Chosen == 0 })
	s.picture("6-layout")
	h.press(s, "find.reserve")
	h.put(s, "reserve.name", "Tank for June")
	h.put(s, "reserve.who", "June")
	s.picture("7-reserve")
	h.press(s, "reserve.send")
	s.says("Reserved", "Tank for June")
	s.holds("the garment", "SELECT name, state FROM garment WHERE present", "Tank for June|reserved")
	s.holds("the reservation", reserved, "main")
	s.picture("8-garment")
}

// reserved lists what live reservations are used for.
const reserved = "SELECT group_concat(used_for, ',') FROM (SELECT used_for FROM reservation WHERE present AND live ORDER BY used_for)"

func releaseAndUndo(s *studio, h hands) {
	s.t.Helper()
	h.press(s, "garment.release")
	s.says("Released")
	s.holds("after releasing", reserved, "")
	undoes(s, h)
	s.holds("after undo", reserved, "main")
	redoes(s, h)
	s.holds("after redo", reserved, "")
	undoes(s, h)
	s.holds("after undo again", reserved, "main")
	s.holds("the history only grows", "SELECT count(*) > 4 FROM movement", "1")
	s.picture("9-taken-back")
}

// undoes takes the last act back and waits until the quiet line says so.
func undoes(s *studio, h hands) {
	s.t.Helper()
	h.undo(s)
	s.says("Took back")
}

// redoes does it again.
func redoes(s *studio, h hands) {
	s.t.Helper()
	h.redo(s)
	s.says("Did again")
}

func reserveStrips(s *studio, h hands) {
	s.t.Helper()
	h.press(s, "garment.strips")
	h.put(s, "binding.part.1.length", "62 cm")
	h.choose(s, "binding.part.1.runs", "inside curve")
	h.put(s, "binding.part.1.turns", "360")
	h.press(s, "binding.closed")
	h.choose(s, "binding.fabric", "Moss jersey")
	s.await("binding.reserve", "can be pressed", visible)
	s.picture("10-strips")
	h.press(s, "binding.reserve")
	h.press(s, "binding.garment.send")
	s.says("Reserved the strips", "Tank for June")
	s.holds("the strips", reserved, "binding,main")
	s.picture("11-strips-reserved")
	undoes(s, h)
	s.holds("after undo", reserved, "main")
	redoes(s, h)
	s.holds("after redo", reserved, "binding,main")
}
