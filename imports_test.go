package crossfall_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// source is one Go file of the tree.
type source struct {
	path string // with slashes, from the root
	file *ast.File
}

// isTest tells whether the file is compiled only for tests.
func (s source) isTest() bool { return strings.HasSuffix(s.path, "_test.go") }

// folder is the package's folder, "." for the root.
func (s source) folder() string { return path.Dir(s.path) }

// sources parses every Go file of the tree, in order of their paths.
func sources(t *testing.T) []source {
	t.Helper()
	var all []source
	set := token.NewFileSet()
	for _, name := range files(t) {
		if path.Ext(name) != ".go" {
			continue
		}
		f, err := parser.ParseFile(set, filepath.FromSlash(name), nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		all = append(all, source{name, f})
	}
	require.NotEmpty(t, all)
	return all
}

// files lists every file of the tree but those that are made by tools.
func files(t *testing.T) []string {
	t.Helper()
	var names []string
	err := filepath.WalkDir(".", func(name string, d fs.DirEntry, err error) error {
		name = filepath.ToSlash(name)
		switch {
		case err != nil:
			return err
		case d.IsDir() && (name == ".git" || name == ".ci/out"):
			return fs.SkipDir
		case d.Type().IsRegular():
			names = append(names, name)
		}
		return nil
	})
	require.NoError(t, err)
	return names
}

// floors are the levels of the house, lowest first. An import never goes up.
var floors = []string{"geodata", "terrain", "siting", "cmd"}

// onSiting are the packages that stand on siting as a whole: its drawings, and
// the made-up assessments that tests share.
var onSiting = []string{"siting", "siting/plan", "siting/sitingtest"}

// edge says what is wrong with an import of ours between two folders; empty
// when it is allowed.
func edge(from, to string) string {
	top := func(folder string) string { return strings.SplitN(folder, "/", 2)[0] }
	f, t := slices.Index(floors, top(from)), slices.Index(floors, top(to))
	switch {
	case from == ".": // the tests of the whole tree
		return ""
	case top(to) == "testdata":
		if top(from) != "cmd" {
			return "only cmd may import testdata"
		}
	case f < 0:
		return "is in no floor of the house"
	case t < 0:
		return "is not a floor of the house"
	case t > f:
		return "goes up the house"
	case to == "siting" && top(from) == "siting" && !slices.Contains(onSiting, from):
		return "goes from a leaf back to siting"
	case slices.Contains(onSiting, to) && to != "siting" && top(from) == "siting":
		return "goes from siting to what stands on it"
	case from == "geodata" || from == "terrain":
		if strings.HasPrefix(to, from+"/") {
			return "goes from a vocabulary to its children"
		}
	case strings.Contains(to, "/internal/") && !strings.HasPrefix(from, to[:strings.Index(to, "/internal/")]):
		return "reaches into an internal folder"
	}
	return ""
}

// imports lists the paths that a file imports.
func imports(t *testing.T, f *ast.File) []string {
	t.Helper()
	var paths []string
	for _, spec := range f.Imports {
		p, err := strconv.Unquote(spec.Path.Value)
		require.NoError(t, err)
		paths = append(paths, p)
	}
	return paths
}

// ours gives the folder of an import of this module.
func ours(importPath string) (folder string, ok bool) {
	return strings.CutPrefix(importPath, "crossfall/")
}

func TestImportsRunDownTheHouse(t *testing.T) {
	seen := 0
	for _, s := range sources(t) {
		for _, p := range imports(t, s.file) {
			to, ok := ours(p)
			if !ok || to == s.folder() { // an external test imports its own package
				continue
			}
			seen++
			if !s.isTest() {
				assert.Empty(t, edge(s.folder(), to), "%s imports %s", s.path, p)
				assert.NotContains(t, []string{"siting/sitingtest", "geodata/internal/realdata"}, to, "%s: only tests import %s", s.path, p)
				continue
			}
			allowed := edge(s.folder(), to) == "" || to == "siting/sitingtest"
			assert.True(t, allowed, "%s imports %s: %s", s.path, p, edge(s.folder(), to))
		}
	}
	assert.NotZero(t, seen, "the test found no imports of ours")
}

func TestEdgeRefuses(t *testing.T) {
	for _, c := range []struct {
		from, to string
		allowed  bool
	}{
		{"geodata", "terrain", false},
		{"terrain", "geodata", true},
		{"terrain", "terrain/surface", false},
		{"terrain/surface", "terrain", true},
		{"terrain/relief", "terrain/surface", true},
		{"siting/frame", "siting", false},
		{"siting/plan", "siting", true},
		{"siting", "siting/plan", false},
		{"siting/frame", "siting/plan", false},
		{"siting", "siting/frame", true},
		{"siting/layout", "siting/bed", true},
		{"siting", "cmd/crossfall/internal/cli", false},
		{"cmd/crossfall", "cmd/crossfall/internal/cli", true},
		{"cmd/crossfall/internal/cli", "testdata", true},
		{"siting", "testdata", false},
		{"tools", "geodata", false},
	} {
		assert.Equal(t, c.allowed, edge(c.from, c.to) == "", "%s imports %s", c.from, c.to)
	}
}

// banned says why a file in folder may not import p; empty when it may.
func banned(folder, p string, isTest bool) string {
	inCmd, inTree := strings.HasPrefix(folder, "cmd/"), folder != "."
	outward := []string{"html/template", "text/template", "net/http"}
	switch {
	case strings.HasPrefix(p, "github.com/paulmach/orb/geojson"):
		return "drops heights and fails on a null member"
	case strings.HasPrefix(p, "github.com/peterstace/simplefeatures/") && p != "github.com/peterstace/simplefeatures/geom":
		return "needs a C compiler or is not ours to use"
	case p == "github.com/spf13/cobra/doc":
		return "grows the program for nothing"
	case p == "unsafe" || p == "C":
		return "is not portable"
	case !inTree || inCmd:
		return ""
	case slices.Contains(outward, p):
		return "belongs to cmd"
	case strings.HasPrefix(p, "github.com/spf13/") || strings.HasPrefix(p, "golang.org/x/term"):
		return "belongs to cmd"
	case p == "os/exec" && !isTest: // a test may compare with another program
		return "belongs to cmd"
	case p == "os" && !isTest && folder != "geodata/plotfolder" && folder != "geodata/internal/realdata": // the latter is for tests
		return "only cmd and geodata/plotfolder touch the disk"
	}
	return ""
}

func TestBannedImports(t *testing.T) {
	for _, s := range sources(t) {
		for _, p := range imports(t, s.file) {
			assert.Empty(t, banned(s.folder(), p, s.isTest()), "%s imports %s", s.path, p)
		}
	}
	assert.NotEmpty(t, banned("siting", "os", false))
	assert.NotEmpty(t, banned("siting/plan", "text/template", false))
	assert.NotEmpty(t, banned("geodata/heightgrid", "os/exec", false))
	assert.Empty(t, banned("geodata/heightgrid", "os/exec", true))
	assert.Empty(t, banned("geodata/plotfolder", "os", false))
	assert.Empty(t, banned("cmd/crossfall", "os", false))
}

// modules are the modules that code may import, and those that tests may.
var (
	modules = []string{
		"github.com/paulmach/orb", "github.com/twpayne/go-geom", "gonum.org/v1/gonum",
		"github.com/peterstace/simplefeatures", "github.com/spf13/cobra", "github.com/spf13/pflag",
		"github.com/pelletier/go-toml/v2", "golang.org/x/image", "golang.org/x/term", "golang.org/x/text", "codeberg.org/go-pdf/fpdf",
	}
	testModules = []string{
		"github.com/stretchr/testify", "pgregory.net/rapid",
		"golang.org/x/net", "github.com/google/go-cmp", "github.com/rogpeppe/go-internal",
		"github.com/invopop/jsonschema", "github.com/santhosh-tekuri/jsonschema/v6",
		"github.com/chromedp/chromedp", "github.com/chromedp/cdproto",
	}
)

func TestOnlyKnownModules(t *testing.T) {
	for _, s := range sources(t) {
		known := modules
		if s.isTest() {
			known = slices.Concat(modules, testModules)
		}
		for _, p := range imports(t, s.file) {
			if !strings.Contains(strings.SplitN(p, "/", 2)[0], ".") { // the standard library or ours
				continue
			}
			belongs := func(m string) bool { return p == m || strings.HasPrefix(p, m+"/") }
			assert.True(t, slices.ContainsFunc(known, belongs), "%s imports %s, which is not a module of ours", s.path, p)
		}
	}
}

// simplefeatures v0.50.0, which a plain update picks, has no polygon buffer in
// pure Go: clearances around services would be lost.
func TestSimplefeaturesIsPinned(t *testing.T) {
	mod, err := os.ReadFile("go.mod")
	require.NoError(t, err)
	assert.Regexp(t, regexp.MustCompile(`(?m)^\s*(require\s+)?github\.com/peterstace/simplefeatures v0\.59\.0(\s|$)`), string(mod))
	assert.NotRegexp(t, regexp.MustCompile(`(?m)^\s*(replace|exclude)\s`), string(mod))
}

// initPanics lists what could panic before main runs: functions named init and
// package variables filled by a call that panics instead of giving an error.
func initPanics(f *ast.File) []string {
	var found []string
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.Name == "init" {
				found = append(found, "func init")
			}
		case *ast.GenDecl:
			if d.Tok != token.VAR {
				continue
			}
			ast.Inspect(d, func(n ast.Node) bool {
				if _, later := n.(*ast.FuncLit); later { // not run before main
					return false
				}
				if call, ok := n.(*ast.CallExpr); ok && mayPanic(call) {
					found = append(found, fmt.Sprintf("a variable filled by %s", calledName(call)))
				}
				return true
			})
		}
	}
	return found
}

func calledName(c *ast.CallExpr) string {
	switch f := c.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

func mayPanic(c *ast.CallExpr) bool {
	name := calledName(c)
	return name == "panic" || strings.HasPrefix(name, "Must") || strings.HasPrefix(name, "must")
}

func TestNothingPanicsBeforeMain(t *testing.T) {
	for _, s := range sources(t) {
		if !s.isTest() {
			assert.Empty(t, initPanics(s.file), s.path)
		}
	}
	bad, err := parser.ParseFile(token.NewFileSet(), "bad.go",
		"package p\nvar a = regexp.MustCompile(\"(\")\nfunc init() {}\n", 0)
	require.NoError(t, err)
	assert.Len(t, initPanics(bad), 2)
}

// Words of the place where the program was written must not reach a reader.
// They are put together here so that this file does not hold them.
func TestNoWordsOfTheWorkplace(t *testing.T) {
	words := []string{"hand" + "book/", "/wo" + "rk/", "/ro" + "ot/", "/home" + "/", "TO" + "DO", "FIX" + "ME"}
	for _, name := range files(t) {
		if name == "go.sum" { // letters by chance
			continue
		}
		content, err := os.ReadFile(filepath.FromSlash(name))
		require.NoError(t, err)
		for _, w := range words {
			if at := strings.Index(string(content), w); at >= 0 {
				line := 1 + strings.Count(string(content[:at]), "\n")
				assert.Fail(t, "a word of the workplace", "%s:%d holds %q", name, line, w)
			}
		}
	}
}
