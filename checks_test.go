package crossfall_test

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// check is a test with all that it says of its sources.
type check struct {
	file, name string
	doc        string   // its comment
	own        []string // its comment and the comments in it
	texts      []string // its strings
	lent       []string // comments of the helpers it uses
}

// checks are the tests of the tree.
func checks(t *testing.T) (all []check) {
	t.Helper()
	parsed := testFiles(t)
	rooms := helpers(parsed)
	for _, f := range parsed {
		for _, d := range f.file.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || !isCheck(fn) {
				continue
			}
			c := check{file: f.path, name: fn.Name.Name, doc: plain(fn.Doc.Text()), own: f.comments(fn.Doc, fn)}
			ast.Inspect(fn, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					text, err := strconv.Unquote(lit.Value)
					assert.NoError(t, err)
					c.texts = append(c.texts, plain(text))
				}
				return true
			})
			c.lent = lent(rooms[f.room()], namesIn(fn))
			all = append(all, c)
		}
	}
	return all
}

// citedIn are the publications that texts name, and the texts without them. Long
// names are looked for first, so that a name within another is not found too.
func citedIn(texts []string) (found []publication, rest string) {
	rest = strings.Join(texts, "\n")
	known := slices.Clone(bibliography)
	slices.SortStableFunc(known, func(a, b publication) int { return cmp.Compare(len(b.cited), len(a.cited)) })
	for _, p := range known {
		if strings.Contains(rest, p.cited) && regexp.MustCompile(`(^|[^\pL\d])`+regexp.QuoteMeta(p.cited)+`($|[^\pL\d])`).MatchString(rest) {
			found = append(found, p)
			rest = strings.ReplaceAll(rest, p.cited, "*")
		}
	}
	return found, rest
}

// says is the sentence of the test's own comments that names a source, else the
// first of its comment, else its name taken apart.
func (c check) says(p publication) string {
	said := c.doc
	for _, text := range c.own {
		for _, s := range sentences(text) {
			if strings.Contains(s, p.cited) {
				return cell(s)
			}
		}
	}
	if said == "" {
		return cell(words(c.name))
	}
	return cell(sentences(said)[0])
}

// sentences parts a text at full stops before a capital letter.
func sentences(text string) []string {
	return strings.Split(fullStop.ReplaceAllString(text, "$1.\n$2"), "\n")
}

var fullStop = regexp.MustCompile(`([\p{Ll}\d)%"])\. (\p{Lu})`)

// words takes the name of a test apart.
func words(name string) string {
	name = strings.TrimPrefix(strings.TrimPrefix(name, "Test"), "Example")
	parts := strings.Fields(humps.ReplaceAllString(acronyms.ReplaceAllString(name, "$1 $2"), "$1 $2"))
	for i, w := range parts {
		if i > 0 && (len(w) == 1 || w != strings.ToUpper(w)) {
			parts[i] = strings.ToLower(w)
		}
	}
	return strings.Join(parts, " ")
}

var (
	acronyms = regexp.MustCompile(`(\p{Lu})(\p{Lu}\p{Ll})`)
	humps    = regexp.MustCompile(`([\p{Ll}\d])(\p{Lu})`)
)

// cell is a text as it may stand in a table.
func cell(text string) string { return strings.ReplaceAll(strings.TrimSuffix(text, "."), "|", `\|`) }

// foundOut says how figures are known: where the test says it of the source, else
// what the list of publications says; and how they were worked.
func (c check) foundOut(p publication) string {
	if p.known == dataSet || p.known == program {
		return p.known
	}
	says := p.known
	for _, text := range slices.Concat(c.own, c.lent) {
		if _, after, ok := strings.Cut(text, p.cited); ok && strings.Contains(after[:min(len(after), 90)], "from memory") {
			says = fromMemory
		}
	}
	switch all := strings.Join(c.own, "\n"); {
	case otherProgram.MatchString(all):
		return says + "; figures by another program"
	case byHand.MatchString(all):
		return says + "; figures worked by hand"
	}
	return says
}

var (
	otherProgram = regexp.MustCompile(`another program|separate program|[Rr]ecomputed independently`)
	byHand       = regexp.MustCompile(`\b[Bb]y hand\b|\b[Ww]orked (?:from|out)|\b[Rr]ecomputed\b`)
)

// checkTable is the table as it should be, one part of the house after the other.
func checkTable(t *testing.T) string {
	t.Helper()
	rows := map[string][]string{}
	for _, c := range checks(t) {
		found, _ := citedIn(slices.Concat(c.own, c.texts, c.lent))
		part, _, _ := strings.Cut(c.file, "/")
		for _, p := range found {
			rows[part] = append(rows[part], fmt.Sprintf("| %s | %s | `%s` %s | %s |\n", p, c.says(p), c.file, c.name, c.foundOut(p)))
		}
	}
	var b strings.Builder
	b.WriteString(checksHeading)
	for _, part := range floors {
		fmt.Fprintf(&b, "\n## %s\n\n| source | what is held to it | where | how it is known |\n|---|---|---|---|\n%s", part, sorted(rows[part]))
	}
	return b.String()
}

const checksHeading = `# Published checks

What tests hold the program to from outside it: publications, data sets and other programs. Made from the comments of the tests
and the list in ` + "`sources_test.go`" + ` by ` + "`go test . -run Checks -update`" + `. "Read in the source": in it or in a copy of it; "read
where others quote it": in another text that gives it; "from memory": not read again. Where a test says so, its figures were
worked from the source's formulas by hand or by a program that is not this one.
`

// The table of published checks is that of the tests as they are.
func TestChecksAreListed(t *testing.T) {
	current(t, filepath.Join("testdata", "checks.md"), checkTable(t))
}

// authorYear and standard are what sources look like.
var (
	authorYear = regexp.MustCompile(`\p{Lu}[\p{L}'-]+(?: et al\.)?,? (?:17|18|19|20)\d\d[a-z]?\b`)
	standard   = regexp.MustCompile(`\b(?:EN|BS|ISO|DIN|RFC|TR|OGC|NEH|BRE|CIRIA|CP|FAO) ?-?\d[\d-]*|\b[Hh]andbook \d+`)
	noAuthor   = regexp.MustCompile(`^(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec|In|Since|Table|Uccle)`)
)

// Every source that a test names is in the list of publications, in one spelling,
// and every publication of the list is named by some test.
func TestSourcesAreKnown(t *testing.T) {
	for _, f := range testFiles(t) {
		_, rest := citedIn(f.comments(nil, f.file))
		for _, like := range append(authorYear.FindAllString(rest, -1), standard.FindAllString(rest, -1)...) {
			assert.True(t, noAuthor.MatchString(like), "%s: %q is not in sources_test.go, or is spelled otherwise there", f.path, like)
		}
	}
	named := map[publication]bool{}
	for _, c := range checks(t) {
		found, _ := citedIn(slices.Concat(c.own, c.texts, c.lent))
		for _, p := range found {
			named[p] = true
		}
	}
	for _, p := range bibliography {
		assert.True(t, named[p], "no test names %q", p.cited)
	}
}
