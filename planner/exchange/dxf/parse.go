package dxf

import (
	"bytes"
	"context"
	"io"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// DefaultLimits are far above what a file of pattern pieces in many sizes needs.
func DefaultLimits() drawn.Limits {
	return drawn.Limits{Bytes: 50 << 20, Elements: 1_000_000, Depth: 50, Points: 2_000_000, Outline: 30_000}
}

// Parse reads a file as it is. Errors are a *stash.Error that says what to do: not DXF,
// damaged, past a limit; a context that ends and a reader that fails come back wrapped.
func Parse(ctx context.Context, r io.Reader, lim drawn.Limits) (File, error) {
	lim = lim.Or(DefaultLimits())
	b, head, err := drawn.Open(r, lim, "DXF")
	if err != nil {
		return File{}, err
	}
	if bytes.HasPrefix(head, []byte("\xef\xbb\xbf")) {
		if _, err := b.Discard(3); err != nil {
			return File{}, err
		}
		head = head[3:]
	}
	if err := refuse(head); err != nil {
		return File{}, err
	}
	p := parser{pairs: pairs{ctx: ctx, lim: lim, r: b, names: map[string]string{}},
		file: File{Hidden: map[string]bool{}, Unread: map[string]int{}, byName: map[string]int{}}, points: lim.Points}
	if err := p.sections(); err != nil {
		return File{}, err
	}
	p.file.BreaksOff = p.ended
	p.decode()
	return p.file, nil
}

// refuse tells what is clearly no text DXF by its first bytes.
func refuse(head []byte) error {
	if bytes.Contains(head[:min(len(head), 24)], []byte("Binary DXF")) {
		return drawn.Unsupported("the file is binary DXF", saveAgain)
	}
	if bytes.HasPrefix(head, []byte("AC10")) {
		return drawn.Unsupported("the file is DWG, not DXF", "Open it in the program that made it and save it as text DXF.")
	}
	if kind := drawn.OtherKind(head); kind != "" {
		return drawn.Unsupported("the file is not DXF, it looks like "+kind, "Save the pattern pieces as text DXF.")
	}
	for _, line := range bytes.SplitN(head, []byte("\n"), 2)[:1] {
		if _, ok := whole(bytes.TrimSpace(line)); !ok {
			return drawn.Unsupported("the file is not DXF", "Save the pattern pieces as text DXF.")
		}
	}
	return nil
}

type parser struct {
	pairs
	file     File
	points   int // that may still come
	elements int
	version  string
	codepage string
}

func (p *parser) is(value string) bool { return string(bytes.TrimSpace(p.value)) == value }

// sections reads the whole file.
func (p *parser) sections() error {
	found := false
	for {
		if err := p.next(); err != nil {
			return err
		}
		switch {
		case p.code != 0:
			continue
		case p.is("EOF"):
			if !found {
				return drawn.Unsupported("the file is not DXF: there is no section in it", "Save the pattern pieces as text DXF.")
			}
			return nil
		case !p.is("SECTION"):
			continue
		}
		found = true
		if err := p.next(); err != nil {
			return err
		}
		if p.code != 2 {
			p.back()
			continue
		}
		if err := p.section(string(bytes.TrimSpace(p.value))); err != nil {
			return err
		}
	}
}

func (p *parser) section(name string) error {
	switch name {
	case "HEADER":
		return p.header()
	case "TABLES":
		return p.tables()
	case "BLOCKS":
		return p.blocks()
	case "ENTITIES":
		got, err := p.entities("ENDSEC")
		p.file.Entities = append(p.file.Entities, got...)
		return err
	}
	return nil
}

// header reads the few variables that matter.
func (p *parser) header() error {
	variable := ""
	for {
		if err := p.next(); err != nil {
			return err
		}
		if p.code == 0 {
			p.back()
			return nil
		}
		if p.code == 9 {
			variable = string(bytes.TrimSpace(p.value))
			continue
		}
		switch variable {
		case "$ACADVER":
			p.version = string(bytes.TrimSpace(p.value))
		case "$DWGCODEPAGE":
			p.codepage = string(bytes.TrimSpace(p.value))
		case "$INSUNITS":
			n, err := p.integer()
			if err != nil {
				return err
			}
			p.file.Header.Units = n
		}
	}
}

// tables looks for layers that are off or frozen.
func (p *parser) tables() error {
	layer, name := false, ""
	for {
		if err := p.next(); err != nil {
			return err
		}
		switch p.code {
		case 0:
			if p.is("ENDSEC") || p.is("EOF") || p.is("SECTION") {
				p.back()
				return nil
			}
			layer, name = p.is("LAYER"), ""
		case 2:
			name = p.name()
		case 62, 70:
			n, ok := whole(bytes.TrimSpace(p.value))
			if layer && ok && (p.code == 62 && n < 0 || p.code == 70 && n&1 != 0) && name != "" {
				p.file.Hidden[name] = true
			}
		}
	}
}

// blocks reads every block.
func (p *parser) blocks() error {
	for {
		if err := p.next(); err != nil {
			return err
		}
		if p.code != 0 {
			continue
		}
		if p.is("ENDSEC") || p.is("EOF") || p.is("SECTION") {
			p.back()
			return nil
		}
		if !p.is("BLOCK") {
			continue
		}
		if err := p.block(); err != nil {
			return err
		}
	}
}

func (p *parser) block() error {
	if p.elements++; p.elements > p.lim.Elements {
		return p.lim.TooManyElements()
	}
	var b Block
	for {
		if err := p.next(); err != nil {
			return err
		}
		if p.code == 0 {
			p.back()
			break
		}
		var err error
		switch p.code {
		case 2:
			b.Name = p.name()
		case 10:
			b.Base.X, err = p.number()
		case 20:
			b.Base.Y, err = p.number()
		}
		if err != nil {
			return err
		}
	}
	got, err := p.entities("ENDBLK")
	if err != nil {
		return err
	}
	b.Entities = got
	if _, twice := p.file.byName[key(b.Name)]; !twice {
		p.file.byName[key(b.Name)] = len(p.file.Blocks)
	}
	p.file.Blocks = append(p.file.Blocks, b)
	return nil
}

// key is a name as it is compared: letters count the same large and small.
func key(name string) string { return strings.ToUpper(name) }
