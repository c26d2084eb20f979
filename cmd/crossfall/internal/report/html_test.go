package report_test

import (
	"context"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crossfall/cmd/crossfall/internal/report"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/sitingtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// nodes are the elements of a page as a browser would build them, in order.
func nodes(t *testing.T, doc string) []*html.Node {
	t.Helper()
	root, err := html.Parse(strings.NewReader(doc))
	require.NoError(t, err)
	var all []*html.Node
	for n := range root.Descendants() {
		if n.Type == html.ElementNode {
			all = append(all, n)
		}
	}
	return all
}

func named(all []*html.Node, names ...string) []*html.Node {
	var out []*html.Node
	for _, n := range all {
		for _, name := range names {
			if n.Data == name {
				out = append(out, n)
			}
		}
	}
	return out
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return strings.TrimSpace(b.String())
}

// A browser moves, closes and adds elements where a page is not nested as HTML
// asks: then the tree differs from what is written.
func TestPageIsBuiltAsWritten(t *testing.T) {
	for name, a := range map[string]*siting.Assessment{"sloping": sitingtest.Sloping(), "nothing": {}} {
		doc := written(t, a, report.Options{})
		var wrote, built []string
		for z := html.NewTokenizer(strings.NewReader(doc)); ; {
			kind := z.Next()
			if kind == html.ErrorToken {
				require.ErrorIs(t, z.Err(), io.EOF)
				break
			}
			if kind == html.StartTagToken || kind == html.SelfClosingTagToken {
				tag, _ := z.TagName()
				wrote = append(wrote, string(tag))
			}
		}
		for _, n := range nodes(t, doc) {
			built = append(built, strings.ToLower(n.Data))
		}
		assert.Equal(t, wrote, built, name)
	}
}

func TestPageHasTheStructureThatReadersNeed(t *testing.T) {
	all := nodes(t, written(t, sitingtest.Sloping(), report.Options{}))
	assert.Len(t, named(all, "main"), 1)
	assert.Len(t, named(all, "h1"), 1)
	ids := map[string]*html.Node{}
	for _, n := range all {
		if id := attribute(n, "id"); id != "" {
			assert.NotContains(t, ids, id)
			ids[id] = n
		}
	}
	for _, n := range all {
		for _, id := range strings.Fields(attribute(n, "aria-labelledby")) {
			require.Contains(t, ids, id)
			assert.NotEmpty(t, textOf(ids[id]), id)
		}
	}
	for _, n := range named(all, "section") {
		assert.NotEmpty(t, attribute(n, "aria-labelledby"))
	}
	for _, n := range named(all, "th") {
		assert.Contains(t, []string{"col", "row"}, attribute(n, "scope"))
		assert.NotEmpty(t, textOf(n))
	}
	tables := named(all, "table")
	assert.NotEmpty(t, tables)
	for _, n := range tables {
		assert.NotEmpty(t, attribute(n.Parent, "aria-label"), "a table has a name")
		heads := len(named(elements(n), "th")) - len(named(elements(n), "tr")) + 1
		for _, r := range named(elements(n), "tr") {
			assert.Equal(t, heads, len(named(elements(r), "th", "td")), "every row has a cell for each head")
		}
	}
}

func elements(n *html.Node) []*html.Node {
	var out []*html.Node
	for d := range n.Descendants() {
		if d.Type == html.ElementNode {
			out = append(out, d)
		}
	}
	return out
}

// Who cannot see a drawing reads its finding: a figure or a word that only this
// plot has, not just what kind of drawing it is.
func TestDrawingsSayTheirFinding(t *testing.T) {
	all := nodes(t, written(t, sitingtest.Sloping(), report.Options{}))
	drawings := named(all, "svg")
	assert.GreaterOrEqual(t, len(drawings), 5)
	for _, n := range drawings {
		assert.Equal(t, "img", attribute(n, "role"))
		said := ""
		for _, c := range named(elements(n), "title", "desc") {
			said += textOf(c) + " "
		}
		assert.Regexp(t, `\d`, said)
		assert.Greater(t, len(said), 60, said)
	}
}

// luminance is that of a colour #rgb or #rrggbb by the Web Content Accessibility
// Guidelines 2.2.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	if len(hex) == 4 {
		hex = fmt.Sprintf("#%c%c%c%c%c%c", hex[1], hex[1], hex[2], hex[2], hex[3], hex[3])
	}
	v, err := strconv.ParseUint(hex[1:], 16, 32)
	require.NoError(t, err)
	linear := func(part uint64) float64 {
		c := float64(part&255) / 255
		if c <= .04045 {
			return c / 12.92
		}
		return math.Pow((c+.055)/1.055, 2.4)
	}
	return .2126*linear(v>>16) + .7152*linear(v>>8) + .0722*linear(v)
}

// Every colour that text is written in has 4.5 to 1 against white paper (Web
// Content Accessibility Guidelines 2.2, success criterion 1.4.3, level AA).
func TestTextHasContrast(t *testing.T) {
	assert.InDelta(t, 21, 1.05/(luminance(t, "#000")+.05), 1e-9, "black on white, as the guidelines say")
	doc := written(t, sitingtest.Sloping(), report.Options{})
	inks := map[string]bool{}
	for _, m := range regexp.MustCompile(`[ {;]color: ?(#[0-9a-f]{3,6})`).FindAllStringSubmatch(doc, -1) {
		inks[m[1]] = true
	}
	for _, m := range regexp.MustCompile(`<text [^>]*fill="(#[0-9a-f]{6})"`).FindAllStringSubmatch(doc, -1) {
		inks[m[1]] = true
	}
	delete(inks, "#fff") // of the mark of a stop, on #1a1a1a
	assert.GreaterOrEqual(t, len(inks), 3)
	for ink := range inks {
		assert.GreaterOrEqual(t, 1.05/(luminance(t, ink)+.05), 4.5, ink)
	}
}

func TestPrintedPagesSplitNoRowNorDrawing(t *testing.T) {
	doc := written(t, sitingtest.Sloping(), report.Options{})
	print := doc[strings.Index(doc, "@media print"):]
	assert.Regexp(t, `tr, figure,[^{]*\{ break-inside: avoid; \}`, print)
	assert.Contains(t, print, "thead { display: table-header-group; }")
}

// A figure of a caution stays on one line with its unit, as everywhere else.
func TestFiguresOfCautionsStayWhole(t *testing.T) {
	a := sitingtest.Sloping()
	a.Cautions[0].Text = "keep 2 ft 1/4 in away from it"
	doc := written(t, a, report.Options{Units: "ft"})
	assert.Contains(t, doc, "</b> Keep 2\u00a0ft\u00a01/4\u00a0in away")
}

func BenchmarkReport(b *testing.B) {
	p, err := plotfolder.Read(filepath.Join("..", "..", "..", "..", "testdata", "hillside"), plotfolder.Options{})
	require.NoError(b, err)
	a, err := siting.Assess(context.Background(), p, siting.Options{})
	require.NoError(b, err)
	for _, f := range []struct {
		format string
		write  func(io.Writer, *siting.Assessment, report.Options) error
	}{{"html", report.Write}, {"pdf", report.PDF}} {
		b.Run("plot=hillside/format="+f.format, func(b *testing.B) {
			for b.Loop() {
				require.NoError(b, f.write(io.Discard, a, report.Options{}))
			}
		})
	}
}
