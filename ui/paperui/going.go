package paperui

import (
	"context"
	"os"
	"path/filepath"
	"strings"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/stash"
	"tallycloth/ui/page"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
)

// name suggests a file in the folder of last time.
func (p *Preview) name() {
	folder := p.habits.Folder
	if folder == "" {
		folder = page.Documents()
	}
	p.path.Set(paper.Free(folder, paper.FileName(p.ask.File, p.choices.wayNow().Ending())))
}

// rename gives the file the ending of another way.
func (p *Preview) rename(w paper.Way) {
	if old := p.path.Text(); old != "" && !strings.EqualFold(filepath.Ext(old), w.Ending()) {
		p.path.Set(strings.TrimSuffix(old, filepath.Ext(old)) + w.Ending())
	}
}

// act does something with the document away from the window's thread, and tells in the view.
func (p *Preview) act(doing string, do func(ctx context.Context, doc *sheet.Document) (string, error), done func()) {
	doc := p.doc
	if doc == nil {
		return
	}
	p.Say(doing)
	var told string
	p.host.Tasks.Start("paper going", func(ctx context.Context, _ func(func())) (err error) {
		p.drawing.Lock()
		defer p.drawing.Unlock()
		told, err = do(ctx, doc)
		return err
	}, func(err error) {
		if err != nil {
			p.Say(say.Error(err))
			return
		}
		p.Say(told)
		p.host.Tell(told)
		if done != nil {
			done()
		}
	})
}

// Save writes the file, and remembers folder and paper.
func (p *Preview) Save() { p.save(nil) }

// Open saves what is not saved yet and shows the file in the person's own program.
func (p *Preview) Open() {
	if p.saved == "" {
		p.save(p.Open)
		return
	}
	path := p.saved
	p.act("Opening "+path+" …", func(ctx context.Context, _ *sheet.Document) (string, error) {
		return "Opened " + path + ".", p.host.Computer().Open(ctx, path)
	}, nil)
}

func (p *Preview) save(then func()) {
	if !p.path.Valid() {
		return
	}
	path, way := strings.TrimSpace(p.path.Text()), p.choices.wayNow()
	p.act("Writing "+path+" …", func(_ context.Context, doc *sheet.Document) (string, error) {
		if err := paper.Save(path, way.Ending(), way.Write(doc)); err != nil {
			return "", err
		}
		return "Saved " + path + ", " + say.Count(doc.Sheets(), "page", "pages") + ".", nil
	}, func() {
		p.saved = path
		p.remember(filepath.Dir(path))
		if then != nil {
			then()
		}
	})
}

// remember keeps folder and paper for the next time. That is no act: Undo has nothing to do with it.
func (p *Preview) remember(folder string) {
	now := p.habits
	if abs, err := filepath.Abs(folder); err == nil {
		now.Folder = abs
	}
	if p.ask.Full {
		now.FullPaper = p.choices.paper.Selected
	} else {
		now.Paper, now.Over = p.choices.paper.Selected, p.host.Settings().Paper
	}
	if now == p.habits {
		return
	}
	p.habits = now
	p.host.Tasks.Start("paper remember", func(ctx context.Context, _ func(func())) error { return p.host.Studio.KeepHabits(ctx, now) }, p.host.Trouble)
}

// Print sends the document to the printer, as a PDF that is taken away again.
func (p *Preview) Print() {
	title := p.ask.Title
	p.act("Printing …", func(ctx context.Context, doc *sheet.Document) (string, error) {
		f, err := os.CreateTemp("", "tallycloth-*.pdf")
		if err != nil {
			return "", cannotPrint(err)
		}
		defer os.Remove(f.Name())
		err = doc.PDF(f)
		if shut := f.Close(); err == nil {
			err = shut
		}
		if err != nil {
			return "", cannotPrint(err)
		}
		return "Sent " + say.Count(doc.Sheets(), "page", "pages") + " to the printer, in full size.", p.host.Computer().Print(ctx, f.Name(), title)
	}, nil)
}

func cannotPrint(err error) error {
	return &stash.Error{Kind: stash.Conflict, What: "There is no room to make the pages ready for the printer", Do: "Make room on the disk and try again", Err: err}
}
