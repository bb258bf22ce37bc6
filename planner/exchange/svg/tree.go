package svg

import (
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"tallycloth/planner/exchange/drawn"
)

// namespace of SVG; elements of files written by hand may have none.
const namespace = "http://www.w3.org/2000/svg"

// node is one element of the file.
type node struct {
	name     string
	attrs    []xml.Attr
	children []*node
	title    string // of a title element right inside it
	text     string // what is written, of a "#text"
}

// attr returns an attribute by its local name, "" when it is missing. Those of
// other namespaces are asked for with label and href.
func (n *node) attr(name string) string {
	for _, a := range n.attrs {
		if a.Name.Space == "" && a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// href is the reference of a use element, in SVG 2 or XLink spelling.
func (n *node) href() string {
	if h := n.attr("href"); h != "" {
		return h
	}
	for _, a := range n.attrs {
		if a.Name.Local == "href" {
			return a.Value
		}
	}
	return ""
}

// label is the name that an editor shows in its list of objects, kept in an
// attribute of its own namespace.
func (n *node) label() string {
	for _, a := range n.attrs {
		if a.Name.Local == "label" && a.Name.Space != "" {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

// display is the name to show a person: label, title, or an ID that somebody chose.
func (n *node) display() string {
	if name := n.given(); name != "" {
		return name
	}
	return n.attr("id")
}

// given is the name that a person gave: label or title, "" for none.
func (n *node) given() string {
	if l := n.label(); l != "" {
		return l
	}
	return n.title
}

// isLayer says whether an editor shows a group as a layer.
func (n *node) isLayer() bool {
	for _, a := range n.attrs {
		if a.Name.Local == "groupmode" {
			return a.Value == "layer"
		}
	}
	return false
}

var wrapped = regexp.MustCompile(`^(container-)?id[0-9]+$`)

// wraps says whether a group is only what LibreOffice Draw puts round every object: its title names the
// object, and it tells no layer from another.
func (n *node) wraps() bool {
	return strings.HasPrefix(n.attr("class"), "com.sun.star.") || n.given() == "" && wrapped.MatchString(n.attr("id"))
}

// document is a parsed file.
type document struct {
	root  *node
	byID  map[string]*node // the first of each
	sheet sheet
}

// treeReader builds the tree token by token within the limits.
type treeReader struct {
	lim   drawn.Limits
	dec   *xml.Decoder
	doc   document
	stack []*node
	alien int // depth inside elements of other namespaces
	count int
}

// parse reads the whole file into a tree.
func parse(ctx context.Context, r io.Reader, lim drawn.Limits) (document, error) {
	t := treeReader{lim: lim, dec: xml.NewDecoder(r), doc: document{byID: map[string]*node{}}}
	t.dec.CharsetReader = charset
	t.dec.Entity = map[string]string{}
	for {
		tok, err := t.dec.Token()
		switch {
		case errors.Is(err, io.EOF) && t.doc.root != nil:
			return t.doc, nil
		case errors.Is(err, io.EOF):
			return document{}, drawn.Unsupported("the file is not SVG", saveAsSVG)
		case err != nil:
			return document{}, t.broken(err)
		}
		if t.count%1024 == 0 && ctx.Err() != nil {
			return document{}, fmt.Errorf("reading the drawing: %w", ctx.Err())
		}
		if err := t.token(tok); err != nil {
			return document{}, err
		}
	}
}

func (t *treeReader) broken(err error) error {
	var syntax *xml.SyntaxError
	switch {
	case errors.Is(err, drawn.ErrBytes):
		return t.lim.TooLarge()
	case errors.As(err, &syntax) && t.doc.root == nil:
		return drawn.Unsupported("the file is not SVG", saveAsSVG)
	case errors.As(err, &syntax):
		return drawn.Unsupported(fmt.Sprintf("the SVG breaks off or is damaged at line %d (%s)", syntax.Line, syntax.Msg),
			"Open it in a vector editor and save it again; if that fails, fetch the file again.")
	}
	return fmt.Errorf("reading the drawing: %w", err)
}

func (t *treeReader) token(tok xml.Token) error {
	switch tok := tok.(type) {
	case xml.StartElement:
		return t.start(tok)
	case xml.EndElement:
		if t.alien > 0 {
			t.alien--
		} else {
			t.stack = t.stack[:len(t.stack)-1]
		}
	case xml.CharData:
		t.chars(tok)
	case xml.Directive:
		t.entities(string(tok))
	}
	return nil
}

func (t *treeReader) start(e xml.StartElement) error {
	if t.count++; t.count > t.lim.Elements {
		return t.lim.TooManyElements()
	}
	if len(t.stack)+t.alien >= t.lim.Depth {
		return t.lim.TooDeep()
	}
	if t.alien > 0 || len(t.stack) > 0 && e.Name.Space != namespace && e.Name.Space != "" {
		t.alien++
		return nil
	}
	n := &node{name: e.Name.Local, attrs: e.Attr}
	if len(t.stack) == 0 {
		if t.doc.root != nil || n.name != "svg" || e.Name.Space != namespace && e.Name.Space != "" {
			return drawn.Unsupported(fmt.Sprintf("the file is not SVG, its outermost element is %q", shorten(n.name)), saveAsSVG)
		}
		t.doc.root = n
	} else {
		parent := t.stack[len(t.stack)-1]
		parent.children = append(parent.children, n)
	}
	if id := n.attr("id"); id != "" && t.doc.byID[id] == nil {
		t.doc.byID[id] = n
	}
	t.stack = append(t.stack, n)
	return nil
}

// mostText is how many bytes of one stretch of writing are kept.
const mostText = 400

// chars keeps titles, style rules and what texts write.
func (t *treeReader) chars(text xml.CharData) {
	if t.alien > 0 || len(t.stack) == 0 {
		return
	}
	n := t.stack[len(t.stack)-1]
	switch {
	case n.name == "title" && len(t.stack) > 1:
		parent := t.stack[len(t.stack)-2]
		parent.title = strings.Join(strings.Fields(parent.title+" "+string(text)), " ")
	case n.name == "style":
		t.doc.sheet.add(string(text))
	case t.writes():
		if len(text) > mostText {
			text = text[:mostText]
		}
		n.children = append(n.children, &node{name: "#text", text: string(text)})
	}
}

// writes says whether a text element is being read.
func (t *treeReader) writes() bool {
	for _, n := range t.stack {
		if n.name == "text" {
			return true
		}
	}
	return false
}

var entity = regexp.MustCompile(`<!ENTITY\s+([\w.-]+)\s+(?:"([^"&%<]*)"|'([^'&%<]*)')\s*>`)

// entities takes over the plain text entities of a document type declaration, which
// some editors write for their namespaces. Those made of other entities are not read:
// the file is then refused where one is used.
func (t *treeReader) entities(directive string) {
	for _, m := range entity.FindAllStringSubmatch(directive, 200) {
		t.dec.Entity[m[1]] = m[2] + m[3]
	}
}
