package texts

import (
	"go/ast"
	"go/parser"
	"go/token"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// readSource reads the texts of a file of source.
func readSource(path, rel string) ([]Text, error) {
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, path, nil, 0)
	if err != nil || slices.Contains(mute, rel) {
		return nil, err
	}
	r := reader{onlyErrors: strings.HasPrefix(rel, "db/")}
	ast.Inspect(f, r.visit)
	var out []Text
	for _, s := range r.said {
		said := strings.Trim(s.text, "\n")
		if !reads(said) || strings.HasPrefix(rel, "planner/exchange/") && !strings.Contains(strings.TrimSpace(said), " ") {
			continue
		}
		if slices.Contains(heard, rel) && len(strings.Fields(said)) < 3 {
			continue
		}
		out = append(out, Text{plain(said), rel, set.Position(s.at).Line})
	}
	return out, nil
}

// mute are files whose texts are names for the program and words of file formats alone.
var mute = []string{"planner/scene/scene.go", "planner/exchange/dxf/plot.go", "planner/exchange/dxf/keys.go", "planner/exchange/dxf/write.go", "stash/list/words.go"}

// heard are files with words that are looked for in what a person wrote.
var heard = []string{"stash/fibreparse.go", "stash/needle.go", "planner/garment/caution.go"}

// piece is a text of the source, with what is put together with + as one.
type piece struct {
	text string
	at   token.Pos
}

// reader gathers the texts of a file.
type reader struct {
	said       []piece
	onlyErrors bool // elsewhere in the file are questions to the library file
	inError    bool
}

// visit looks at a part of the source, and says whether its parts are looked at too.
func (r *reader) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ImportSpec:
		return false
	case *ast.Field:
		return n.Tag == nil
	case *ast.CallExpr:
		return r.call(n)
	case *ast.CaseClause:
		for _, s := range n.Body {
			ast.Inspect(s, r.visit)
		}
		return false
	case *ast.IndexExpr:
		ast.Inspect(n.X, r.visit)
		return false
	case *ast.KeyValueExpr:
		if _, text := n.Key.(*ast.BasicLit); text {
			ast.Inspect(n.Value, r.visit)
			return false
		}
	case *ast.BinaryExpr:
		if n.Op != token.ADD {
			return n.Op == token.LAND || n.Op == token.LOR
		}
		if text, ok := r.joined(n); ok {
			r.add(text, n.Pos())
			return false
		}
	case *ast.BasicLit:
		if text, err := strconv.Unquote(n.Value); n.Kind == token.STRING && err == nil {
			r.add(text, n.Pos())
		}
	}
	return true
}

func (r *reader) add(text string, at token.Pos) {
	if !r.onlyErrors || r.inError {
		r.said = append(r.said, piece{text, at})
	}
}

// joined is a text put together with +, and whether anything in it is a text. What is worked out while the
// program runs is "…", and looked at by itself.
func (r *reader) joined(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BinaryExpr:
		if e.Op == token.ADD {
			a, one := r.joined(e.X)
			b, two := r.joined(e.Y)
			return a + b, one || two
		}
	case *ast.BasicLit:
		if text, err := strconv.Unquote(e.Value); e.Kind == token.STRING && err == nil {
			return text, true
		}
	case *ast.ParenExpr:
		return r.joined(e.X)
	}
	ast.Inspect(e, r.visit)
	return "…", false
}

// unsaid are calls whose texts stay inside the program: what is looked for in a text, names of widgets,
// questions to the library file, options of verbs, other programs.
var unsaid = regexp.MustCompile(`^(MustCompile|panic|println|Getenv|Setenv|Command|CommandContext|[eE]xec(Context)?|Query(Row)?(Context)?|` +
	`(Has|Trim|Cut|Last)?(Prefix|Suffix)|Contains\w*|Cut|Split\w*|Fields\w*|Trim\w*|EqualFold|(Last)?Index\w*|Get|Set(Named)?|Named|Lookup|GetString|GetBool|GetInt|Changed|` +
	`MarkFlag\w+|Preference|String(List)?WithFallback|NewStaticResource|Parse|ParseInLocation|Glob|ReadFile|LookPath|Match\w*|WithValue|MeasureText)$`)

// named are calls whose first text is a name for work that goes on.
var named = regexp.MustCompile(`^(Act|Away|Start|Late|Settle|Stop|Running)$`)

// options are calls that give a verb an option: what is said of it comes last.
var options = regexp.MustCompile(`^(String|Bool|Int|Float64|StringArray|StringSlice)VarP?$`)

// call looks into a call as far as its texts are said.
func (r *reader) call(c *ast.CallExpr) bool {
	name := ""
	switch f := c.Fun.(type) {
	case *ast.Ident:
		name = f.Name
	case *ast.SelectorExpr:
		name = f.Sel.Name
		ast.Inspect(f.X, r.visit)
	}
	before := r.inError
	r.inError = before || slices.Contains([]string{"Errorf", "New", "refuse"}, name)
	for i, a := range c.Args {
		_, text := a.(*ast.BasicLit)
		inside := unsaid.MatchString(name) || i == 0 && named.MatchString(name) || i < len(c.Args)-1 && options.MatchString(name)
		if !text || !inside {
			ast.Inspect(a, r.visit)
		}
	}
	r.inError = before
	if f, is := c.Fun.(*ast.FuncLit); is {
		ast.Inspect(f, r.visit)
	}
	return false
}

var (
	letters = regexp.MustCompile(`\pL{2}`)
	// inner are names used inside the program: of widgets and files, of columns, forms of numbers and dates.
	inner = regexp.MustCompile(`^[a-z0-9…]*[_./:*#-][a-z0-9…_./:*#-]*$|^[A-Z_]{2,}$|^[<#>]|^[a-z]+[A-Z]\w*$|^\d{4}-\d\d|^(Jan|02|15:04|2 Jan)|[\x00-\x08]|stroke-`)
	verbs = regexp.MustCompile(`%(\[\d\])?[-+#]?[0-9*]*(\.[0-9*]+)?[a-zA-Z]`)
	again = regexp.MustCompile(`…(\s?…)+`)
)

// reads says whether a text is one that somebody reads.
func reads(text string) bool {
	said := plain(text)
	return utf8.ValidString(said) && letters.MatchString(said) && !inner.MatchString(strings.TrimSpace(said))
}

// plain is a text as a person reads it, what is put in while the program runs as "…".
func plain(text string) string {
	text = strings.ReplaceAll(verbs.ReplaceAllString(text, "…"), "%%", "%")
	return again.ReplaceAllString(text, "…")
}
