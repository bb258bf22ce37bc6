package settingsui

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"tallycloth/planner"
	"tallycloth/planner/draft"
	"tallycloth/planner/leftover"
	"tallycloth/stash"
	"tallycloth/stash/measure"
	"tallycloth/stash/shape"
	"tallycloth/ui/page"
	"tallycloth/ui/records"
	"tallycloth/ui/say"
	"tallycloth/ui/widgets"
)

// picked is a choice of one of several words.
type picked struct {
	*widgets.Choice
	explains string
	of       func(planner.Settings) int
}

func (c *picked) object() fyne.CanvasObject { return c.Object() }
func (c *picked) words() string             { return c.explains }
func (c *picked) focusable() fyne.Focusable { return c.Choice }
func (c *picked) fill(set planner.Settings) {
	changed := c.OnChanged
	c.OnChanged = nil
	c.SetSelectedIndex(c.of(set))
	c.OnChanged = changed
}

func (p *Page) pick(name, label, explains string, words []string, of func(planner.Settings) int, keep func(*planner.Settings, int)) choice {
	c := &picked{explains: explains, of: of}
	c.Choice = widgets.NewChoice(label, words, nil)
	c.OnChanged = func(string) {
		if i := c.SelectedIndex(); i >= 0 {
			p.keep(func(set *planner.Settings) { keep(set, i) })
		}
	}
	p.host.Names.Set("settings."+name, c.Choice)
	return c
}

// typed is a line that is kept when the focus leaves it or Enter is pressed.
type typed struct {
	*widgets.Field
	explains string
	of       func(planner.Settings) string
}

func (f *typed) object() fyne.CanvasObject { return f.Object() }
func (f *typed) words() string             { return f.explains }
func (f *typed) focusable() fyne.Focusable { return f.Entry }
func (f *typed) fill(set planner.Settings) {
	if text := f.of(set); text != f.Text() {
		f.Set(text)
	}
}

func (p *Page) line(name, label, explains, hint string, read func(string) (string, error), of func(planner.Settings) string, keep func(*planner.Settings, string) error) choice {
	understood := func(t string) (string, error) { // said where it is not just what stands above
		echo, err := read(t)
		if err == nil && strings.TrimSpace(strings.TrimPrefix(echo, "=")) == strings.TrimSpace(t) {
			echo = ""
		}
		return echo, err
	}
	f := &typed{Field: widgets.NewField(label, hint, understood), explains: explains, of: of}
	done := func() {
		if f.Valid() && f.Text() != f.of(p.host.Settings()) {
			p.keep(func(set *planner.Settings) {
				was := *set
				if keep(set, f.Text()) != nil {
					*set = was
				}
			})
		}
	}
	lost := f.Entry.Lost
	f.Entry.Lost = func() { lost(); done() }
	f.Entry.OnSubmitted = func(string) { done() }
	f.Entry.Escape = func() { f.Set(f.of(p.host.Settings())); p.EscapeHere() }
	p.host.Names.Set("settings."+name, f.Entry)
	return f
}

// length is a line for a length; an empty one, where there is a usual, takes that.
func (p *Page) length(name, label, explains string, usual measure.Length, of func(*planner.Settings) *measure.Length) choice {
	voice := func() say.Voice { return p.host.Voice() }
	unit := func() measure.Unit {
		if p.host.Settings().Units == measure.Imperial {
			return measure.Inch
		}
		return measure.Centimetre
	}
	return p.line(name, label, explains, voice().Fine(usual), func(t string) (string, error) {
		l, err := measure.ParseLength(t, unit())
		if err == nil && l < 0 {
			err = errors.New("type 0 or more")
		}
		if err != nil {
			return "", err
		}
		return "= " + voice().Fine(l), nil
	}, func(set planner.Settings) string {
		if l := *of(&set); l > 0 || usual == 0 {
			return voice().Fine(l)
		}
		return voice().Fine(usual)
	}, func(set *planner.Settings, text string) error {
		if strings.TrimSpace(text) == "" {
			first := planner.DefaultSettings() // what is usual, or zero where that means the usual
			*of(set) = *of(&first)
			return nil
		}
		l, err := measure.ParseLength(text, unit())
		if err == nil {
			*of(set) = l
		}
		return err
	})
}

// The words of the choices.
var (
	unitWords  = []string{"metric: m, cm, g/m²", "imperial: yd, in, oz/yd²"}
	lightWords = []string{"as the system", "light", "dark", "high contrast"}
	paperWords = []string{records.A4, records.Letter}
	textWords  = []string{"80 %", "90 %", "100 %", "110 %", "125 %", "140 %", "160 %"}
)

func place(words []string, word string) int {
	for i, w := range words {
		if w == word {
			return i
		}
	}
	return 0
}

func (p *Page) measures() group {
	return group{"Measures and money", []choice{
		p.pick("units", "Units", "How lengths and weights are shown; both kinds can always be typed. The usual lengths below become those usual in them, yours stay.", unitWords,
			func(s planner.Settings) int { return int(s.Units) }, func(s *planner.Settings, i int) { *s = s.In(measure.System(i)) }),
		p.line("currency", "Currency (three letters)", "What a price without a currency is in. Others keep their own.", "EUR",
			func(t string) (string, error) {
				code, err := measure.ParseCurrency(t, "")
				return "= " + code, err
			}, func(s planner.Settings) string { return s.Currency },
			func(s *planner.Settings, t string) error {
				code, err := measure.ParseCurrency(t, "")
				if err == nil {
					s.Currency = code
				}
				return err
			}),
		p.pick("paper", "Paper to print on", "For sheets and records. Full size asks for its paper each time.", paperWords,
			func(s planner.Settings) int { return place(paperWords, s.Paper) },
			func(s *planner.Settings, i int) { s.Paper = []string{"", records.Letter}[i] }),
		p.length("shop", "The shop sells by", "What is to be bought is rounded up to this length.", 10*measure.Centimetre,
			func(s *planner.Settings) *measure.Length { return &s.ShopIncrement }),
	}}
}

func (p *Page) looks() group {
	return group{"Looks", []choice{
		p.pick("look", "Colours", "High contrast has strong text and lines on white.", lightWords,
			func(s planner.Settings) int { return place(lightWords, s.DarkTheme) },
			func(s *planner.Settings, i int) { s.DarkTheme = []string{"", "light", "dark", "high contrast"}[i] }),
		p.pick("text", "Text size", "Rows and fields grow with it.", textWords,
			func(s planner.Settings) int { return place(textWords, fmt.Sprintf("%d %%", s.TextPercent)) },
			func(s *planner.Settings, i int) {
				s.TextPercent, _ = strconv.Atoi(strings.TrimSuffix(textWords[i], " %"))
			}),
	}}
}

func (p *Page) stretch() group {
	return group{"Stretch", []choice{
		p.line("comfort", "Comfort share", "How much of its measured stretch a strip or band may use when worn.", "80 %",
			func(t string) (string, error) {
				share, err := readShare(t)
				return "= " + measure.FormatPercent(share), err
			}, func(s planner.Settings) string { return measure.FormatPercent(s.UsableStretch) },
			func(s *planner.Settings, t string) error {
				share, err := readShare(t)
				if err == nil {
					s.UsableStretch = share
				}
				return err
			}),
		p.line("classes", "Words for stretch", "Words by their upper limits; published ones differ. Empty takes the usual ones.", stash.UsualStretch,
			func(t string) (string, error) {
				c, err := stash.ParseStretchClasses(t)
				if err != nil {
					return "", errors.New(say.Error(err))
				}
				return "= " + c.String(), nil
			}, func(s planner.Settings) string { return s.Classes.String() },
			func(s *planner.Settings, t string) error {
				c, err := stash.ParseStretchClasses(t)
				if err == nil {
					s.Classes = c
				}
				return err
			}),
	}}
}

func tiltWords(a shape.Angle) string {
	return strconv.FormatFloat(float64(a)/1000, 'f', -1, 64) + "°"
}

// readTilt reads degrees, with or without their sign; nothing is none.
func readTilt(t string) (shape.Angle, error) {
	t = strings.TrimSpace(strings.TrimSuffix(strings.Replace(strings.TrimSpace(t), ",", ".", 1), "°"))
	if t == "" {
		return 0, nil
	}
	deg, err := strconv.ParseFloat(t, 64)
	a := shape.Angle(math.Round(deg * 1000))
	if err != nil || !(deg >= 0) || a > planner.MostTilt {
		return 0, errors.New("type degrees from 0 to 2, such as 1.5")
	}
	return a, nil
}

func readShare(t string) (measure.Percent, error) {
	share, err := measure.ParsePercent(t)
	if err == nil && (share <= 0 || share > 100*measure.OnePercent) {
		err = errors.New("type a share from 1 % to 100 %")
	}
	return share, err
}

func (p *Page) cutting() group {
	return group{"Cutting and sewing", []choice{
		p.length("clearance", "Room between pattern pieces", "The least distance in a layout, for the knife or the scissors.", 0,
			func(s *planner.Settings) *measure.Length { return &s.Clearance }),
		p.length("end", "A raw end loses", "What truing an end takes that is not straight yet.", 0,
			func(s *planner.Settings) *measure.Length { return &s.EndLoss }),
		p.line("tilt", "Off grain, at most (degrees)", "How far a layout may turn pattern pieces off grain, up to 2°; not those that are fixed, on the fold or meet a repeat.", "0",
			func(t string) (string, error) {
				a, err := readTilt(t)
				return "= " + tiltWords(a), err
			}, func(s planner.Settings) string { return tiltWords(s.Tilt) },
			func(s *planner.Settings, t string) error {
				a, err := readTilt(t)
				if err == nil {
					s.Tilt = a
				}
				return err
			}),
		p.length("tight", "Tight below", "With less length to spare than this a verdict says: enough, tight.", 0,
			func(s *planner.Settings) *measure.Length { return &s.TightLength }),
		p.length("seam", "Seam allowance", "For quick outlines where none is said.", draft.UsualSeam,
			func(s *planner.Settings) *measure.Length { return &s.Seam }),
		p.length("hem", "Hem allowance", "For quick outlines where none is said.", draft.UsualHem,
			func(s *planner.Settings) *measure.Length { return &s.Hem }),
		p.length("keep", "Keep leftovers from", "A leftover is kept when a square of this side fits into it.", leftover.DefaultLimits().Square,
			func(s *planner.Settings) *measure.Length { return &s.KeepSquare }),
		p.length("sliver", "Sliver width", "A narrower rest across the fabric is kept too, for strips, when it is at least so wide.", leftover.DefaultLimits().StripWidth,
			func(s *planner.Settings) *measure.Length { return &s.KeepStrip }),
	}}
}

func (p *Page) backups() group {
	n := func(name, label, explains string, of func(*planner.BackupRule) *int) choice {
		return p.line(name, label, explains, "7", func(t string) (string, error) {
			k, err := strconv.Atoi(strings.TrimSpace(t))
			if err != nil || k < 0 || k > 400 {
				return "", errors.New("type a whole number")
			}
			return " ", nil
		}, func(s planner.Settings) string { r := s.BackupRule(); return strconv.Itoa(*of(&r)) },
			func(s *planner.Settings, t string) error {
				k, err := strconv.Atoi(strings.TrimSpace(t))
				s.Backups = s.BackupRule()
				*of(&s.Backups) = k
				return err
			})
	}
	return group{"Back-ups", []choice{
		n("days", "Days that keep one", "One is made each day that something was done. The newest of each of so many days stays.", func(r *planner.BackupRule) *int { return &r.Days }),
		n("weeks", "Weeks that keep one", "The newest of each of so many weeks stays.", func(r *planner.BackupRule) *int { return &r.Weeks }),
		n("months", "Months that keep one", "The newest of each of so many months stays. One made before a great change stays a month in any case.", func(r *planner.BackupRule) *int { return &r.Months }),
	}}
}

var _ page.Page = (*Page)(nil)
