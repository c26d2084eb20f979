package crossfall_test

import (
	"cmp"
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// testFile is a test file of the tree with its comments.
type testFile struct {
	path string // with slashes, from the root
	file *ast.File
}

// testFiles parses every test file below the root.
func testFiles(t *testing.T) (all []testFile) {
	t.Helper()
	set := token.NewFileSet()
	for _, name := range files(t) {
		if !strings.HasSuffix(name, "_test.go") || path.Dir(name) == "." {
			continue
		}
		f, err := parser.ParseFile(set, filepath.FromSlash(name), nil, parser.ParseComments|parser.SkipObjectResolution)
		require.NoError(t, err)
		all = append(all, testFile{name, f})
	}
	return all
}

// room names the declarations that a test file sees: those of the test files of
// its package in its folder.
func (f testFile) room() string { return path.Dir(f.path) + " " + f.file.Name.Name }

// plain is a text as sources are looked for in it: on one line, years without
// brackets and what stands before them without a comma.
func plain(text string) string {
	return bracketedYear.ReplaceAllString(strings.Join(strings.Fields(text), " "), " $1")
}

var bracketedYear = regexp.MustCompile(`,? \(((?:17|18|19|20)\d\d)\)`)

// comments are those before and within a node of a file.
func (f testFile) comments(doc *ast.CommentGroup, n ast.Node) (all []string) {
	for _, c := range f.file.Comments {
		if c == doc || c.Pos() >= n.Pos() && c.End() <= n.End() {
			all = append(all, plain(c.Text()))
		}
	}
	return all
}

// helper is a declaration of a test file that is no test: what its comments say,
// and the names that it uses.
type helper struct {
	says []string
	uses []string
}

// helpers are those of each room by name.
func helpers(all []testFile) map[string]map[string]helper {
	rooms := map[string]map[string]helper{}
	for _, f := range all {
		if rooms[f.room()] == nil {
			rooms[f.room()] = map[string]helper{}
		}
		put := func(name string, doc *ast.CommentGroup, n ast.Node) {
			rooms[f.room()][name] = helper{f.comments(doc, n), namesIn(n)}
		}
		for _, d := range f.file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if !isCheck(d) && d.Recv == nil {
					put(d.Name.Name, d.Doc, d)
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					switch s := s.(type) {
					case *ast.TypeSpec:
						put(s.Name.Name, cmp.Or(s.Doc, d.Doc), s)
					case *ast.ValueSpec:
						for _, name := range s.Names {
							put(name.Name, cmp.Or(s.Doc, d.Doc), s)
						}
					}
				}
			}
		}
	}
	return rooms
}

// isCheck tells a test or an example from its helpers.
func isCheck(d *ast.FuncDecl) bool {
	for _, kind := range []string{"Test", "Example"} {
		if rest, ok := strings.CutPrefix(d.Name.Name, kind); ok && (rest == "" || rest[0] < 'a' || rest[0] > 'z') {
			return true
		}
	}
	return false
}

// namesIn are the names that a node uses, those behind a dot left out.
func namesIn(n ast.Node) (names []string) {
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			names = append(names, namesIn(n.X)...)
			return false
		case *ast.Ident:
			names = append(names, n.Name)
		}
		return true
	})
	return names
}

// lent is what the comments of all used helpers say, and of those that they use
// in turn.
func lent(room map[string]helper, names []string) (says []string) {
	seen := map[string]bool{}
	for len(names) > 0 {
		name := names[0]
		names = names[1:]
		if h, ok := room[name]; ok && !seen[name] {
			seen[name] = true
			says = append(says, h.says...)
			names = append(names, h.uses...)
		}
	}
	return says
}
