package plan_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"
	"crossfall/siting/sitingtest"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew")

func svg(t *testing.T, a *siting.Assessment, opt plan.Options) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, plan.SVG(&b, a, opt))
	return b.String()
}

// element is one SVG element with its attributes and text.
type element struct {
	name string
	attr map[string]string
	text string
}

// parse reads the whole document and fails on anything that is not XML.
func parse(t *testing.T, doc string) []element {
	t.Helper()
	var out []element
	d := xml.NewDecoder(strings.NewReader(doc))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		require.NoError(t, err)
		switch v := tok.(type) {
		case xml.StartElement:
			e := element{name: v.Name.Local, attr: map[string]string{}}
			for _, a := range v.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			out = append(out, e)
		case xml.CharData:
			if len(out) > 0 {
				out[len(out)-1].text += strings.TrimSpace(string(v))
			}
		}
	}
}

func classed(es []element, class string) []element {
	var out []element
	for _, e := range es {
		if e.attr["class"] == class {
			out = append(out, e)
		}
	}
	return out
}

func coordinates(t *testing.T, e element) []orb.Point {
	t.Helper()
	var out []orb.Point
	for _, pair := range strings.Fields(e.attr["points"]) {
		x, y, ok := strings.Cut(pair, ",")
		require.True(t, ok)
		px, err := strconv.ParseFloat(x, 64)
		require.NoError(t, err)
		py, err := strconv.ParseFloat(y, 64)
		require.NoError(t, err)
		out = append(out, orb.Point{px, py})
	}
	return out
}

func TestSVGIsWellFormedAndSaysWhatItShows(t *testing.T) {
	doc := svg(t, sitingtest.Sloping(), plan.Options{})
	es := parse(t, doc)
	require.Equal(t, "svg", es[0].name)
	assert.Equal(t, "img", es[0].attr["role"])
	assert.Equal(t, "0 0 297.00 210.00", es[0].attr["viewBox"])
	assert.Equal(t, "297.00mm", es[0].attr["width"])
	require.Equal(t, "title", es[1].name)
	assert.Equal(t, "Plan of Upper field & orchard: 5 beds, 4 to build. Fall of the ground: 9.1 % (8.4 to 9.8), 1 in 11.", es[1].text)
	require.Equal(t, "desc", es[2].name)
	assert.Contains(t, es[2].text, "Bed 5: do not build.")
	assert.NotContains(t, doc, "-0.00")
}

func TestSVGIsTheSameBytesEachTime(t *testing.T) {
	assert.Equal(t, svg(t, sitingtest.Sloping(), plan.Options{}), svg(t, sitingtest.Sloping(), plan.Options{}))
}

func TestBedSidesAreTrueToScale(t *testing.T) {
	for _, paper := range []string{"A4", "A3"} {
		a := sitingtest.Sloping()
		s, err := plan.Lay(a, plan.Options{Paper: paper})
		require.NoError(t, err)
		beds := classed(parse(t, svg(t, a, plan.Options{Paper: paper})), "bed")
		// The legend repeats five samples after the beds themselves.
		require.Len(t, beds, 2*len(a.Beds))
		for i, b := range a.Beds {
			c := coordinates(t, beds[i])
			require.Len(t, c, 4)
			side := func(j int) float64 { return math.Hypot(c[j+1][0]-c[j][0], c[j+1][1]-c[j][1]) }
			// The directions of the example are unit vectors to three decimals only.
			unit := math.Hypot(.940, .342)
			assert.InDelta(t, b.Length*unit*1000/float64(s.Scale), side(0), .02, b.Name)
			assert.InDelta(t, b.Width*unit*1000/float64(s.Scale), side(1), .02, b.Name)
		}
	}
}

func TestSheetChosenForTheGround(t *testing.T) {
	for _, tt := range []struct {
		w, h  float64
		paper string
		want  string
	}{
		{3, 3, "", "A4 landscape 1:20"},
		{9, 8, "", "A4 landscape 1:50"},
		{8, 9.2, "", "A4 portrait 1:50"}, // 184 mm high: over the 180 that a landscape sheet has
		{18, 12, "", "A4 landscape 1:100"},
		{24, 20, "", "A3 landscape 1:100"}, // A4 would be 1:200
		{24, 20, "A4", "A4 landscape 1:200"},
		{90, 60, "", "A4 landscape 1:500"},    // A3 shows no more
		{60, 40, "", "A3 landscape 1:200"},    // A4 would be 1:500
		{900, 700, "", "A4 landscape 1:5000"}, // 1:2000 is over A3
	} {
		a := &siting.Assessment{Frame: siting.Frame{Boundary: []orb.Point{{0, 0}, {tt.w, 0}, {tt.w, tt.h}, {0, tt.h}}}}
		s, err := plan.Lay(a, plan.Options{Paper: tt.paper})
		require.NoError(t, err)
		way := "landscape"
		if s.Height > s.Width {
			way = "portrait"
		}
		assert.Equal(t, tt.want, fmt.Sprintf("%s %s 1:%d", s.Paper, way, s.Scale), "%g x %g", tt.w, tt.h)
	}
}

func TestLegendListsOnlyWhatIsDrawn(t *testing.T) {
	legend := func(a *siting.Assessment) string {
		var out []string
		for _, e := range classed(parse(t, svg(t, a, plan.Options{})), "legend") {
			out = append(out, e.text)
		}
		return strings.Join(out, "\n")
	}
	full := legend(sitingtest.Sloping())
	for _, tt := range []struct {
		words string
		strip func(a *siting.Assessment)
	}{
		{"contour with its height", func(a *siting.Assessment) { a.Ground.Contours = nil }},
		{"spot height", func(a *siting.Assessment) { a.Ground.Heights = nil }},
		{"hollow: water stands here", func(a *siting.Assessment) { a.Ground.Hollows = nil }},
		{"where winter rain runs", func(a *siting.Assessment) { a.Water.Paths = nil }},
		{"way the water leaves, from magnetic north", func(a *siting.Assessment) { a.Ground.RunoffBearing = siting.Interval{Reason: "too flat"} }},
		{"bed, stepped", func(a *siting.Assessment) { a.Beds = a.Beds[:2] }},
		{"step between two levels", func(a *siting.Assessment) { a.Beds = a.Beds[:2] }},
		{"peg", func(a *siting.Assessment) { a.Beds = a.Beds[3:] }},
		{"electricity, buried", func(a *siting.Assessment) { a.Features = a.Features[1:] }},
		{"too near a service: no pegs, no digging", func(a *siting.Assessment) { a.Features = a.Features[1:] }},
		{"telecoms, overhead", func(a *siting.Assessment) { a.Features = nil }},
		{"hedge", func(a *siting.Assessment) { a.Features = nil }},
		{"fence", func(a *siting.Assessment) { a.Features = nil }},
		{"roots of a tree: no digging, no filling", func(a *siting.Assessment) { a.Features = nil }},
		{"gate", func(a *siting.Assessment) { a.Features = nil }},
		{"no-go area", func(a *siting.Assessment) { a.Features = nil }},
		{"mark to tape from", func(a *siting.Assessment) { a.Features = nil }},
	} {
		lines := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(tt.words) + `$`)
		assert.Regexp(t, lines, full)
		a := sitingtest.Sloping()
		tt.strip(a)
		assert.NotRegexp(t, lines, legend(a), tt.words)
	}
}

func TestNoBoundaryDrawnIsToldByLineAndWord(t *testing.T) {
	a := sitingtest.Sloping()
	a.Frame.BoundaryDrawn = false
	doc := svg(t, a, plan.Options{})
	assert.Contains(t, doc, "outline of the heights (no boundary")
	assert.NotEmpty(t, classed(parse(t, doc), "boundary")[0].attr["stroke-dasharray"])
}

func TestNoPegsNorArrowAgainstAStopOrDoubt(t *testing.T) {
	a := sitingtest.Sloping()
	a.Beds[0].Build = nil // stopped: its pegs must not be drawn even if they are there
	a.Ground.RunoffBearing = siting.Interval{Reason: "the fall is under three standard errors"}
	a.Ground.Determined, a.Ground.FallSaid = false, "cannot tell: between 0.2 and 1.4 %"
	doc := svg(t, a, plan.Options{})
	assert.Contains(t, doc, "boarded, stopped: see cautions")
	assert.NotContains(t, doc, "water leaves")
	assert.Contains(t, doc, "Fall of the ground: cannot tell: between 0.2 and 1.4 %.")
	whole := len(classed(parse(t, svg(t, sitingtest.Sloping(), plan.Options{})), "peg"))
	assert.Equal(t, whole-2*len(sitingtest.Sloping().Beds[0].Pegs.Positions), len(classed(parse(t, doc), "peg")))
}

func TestFeetEverywhere(t *testing.T) {
	for _, e := range parse(t, svg(t, sitingtest.Sloping(), plan.Options{Units: "ft"})) {
		if e.name == "text" {
			assert.NotRegexp(t, `\d\s?(mm|m)\b`, e.text)
		}
	}
}

func TestPlanWithNothingOnIt(t *testing.T) {
	a := &siting.Assessment{Frame: siting.Frame{Boundary: []orb.Point{{0, 0}, {9, 0}, {9, 8}, {0, 8}}}}
	assert.Contains(t, svg(t, a, plan.Options{}), "No bed placed.")
	assert.ErrorIs(t, plan.SVG(io.Discard, &siting.Assessment{}, plan.Options{}), plan.ErrNothingToDraw)
	_, err := plan.Lay(a, plan.Options{Paper: "A0"})
	assert.ErrorContains(t, err, `no sheet "A0"`)
}

func TestManyHeightsAreThinnedAndSaySo(t *testing.T) {
	a := sitingtest.Sloping()
	a.Ground.Heights = nil
	for i := range 60 {
		for j := range 40 {
			a.Ground.Heights = append(a.Ground.Heights, siting.Height{At: orb.Point{.3 * float64(i), .3 * float64(j)}, Height: 12})
		}
	}
	doc := svg(t, a, plan.Options{})
	assert.Less(t, len(classed(parse(t, doc), "spot")), 1200)
	assert.Contains(t, doc, "left out)")
}

func TestBedWithoutAPlaceIsLeftOut(t *testing.T) {
	a := sitingtest.Sloping()
	a.Beds[0].Corners[1] = siting.Corner{math.NaN(), 0, 0}
	a.Beds[1].Name = ""
	doc := svg(t, a, plan.Options{})
	assert.NotContains(t, doc, "NaN")
	assert.NotContains(t, doc, ">Bed 1<")
	assert.Contains(t, doc, ">Bed 3<", "other names still find room")
}

func BenchmarkSVG(b *testing.B) {
	for _, n := range []int{40, 400, 4000} {
		a := sitingtest.Sloping()
		a.Ground.Heights = nil
		for i := range n {
			a.Ground.Heights = append(a.Ground.Heights, siting.Height{At: orb.Point{18 * math.Mod(float64(i)*.618, 1), 12 * float64(i) / float64(n)}, Height: 12})
		}
		b.Run(fmt.Sprintf("heights=%d", n), func(b *testing.B) {
			for b.Loop() {
				require.NoError(b, plan.SVG(io.Discard, a, plan.Options{}))
			}
		})
	}
}

// recorder keeps what is drawn.
type recorder struct {
	texts  []string
	styled []plan.TextStyle
	at     []orb.Point
}

func (r *recorder) Polygon([]orb.Point, plan.Style) {}
func (r *recorder) Line([]orb.Point, plan.Style)    {}
func (r *recorder) Text(at orb.Point, t string, s plan.TextStyle) {
	r.texts, r.at, r.styled = append(r.texts, t), append(r.at, at), append(r.styled, s)
}

// quad is the ground under a text, by half a size a letter and the height of
// capitals: figures measured on common sans-serif faces, not the plan's own.
func quad(at orb.Point, t string, s plan.TextStyle) [4]orb.Point {
	w, h := .5*s.Size*float64(len([]rune(t))), .7*s.Size
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	var q [4]orb.Point
	for i, k := range [4][2]float64{{-.5, -.5}, {.5, -.5}, {.5, .5}, {-.5, .5}} {
		x, y := w*k[0], h*k[1]
		q[i] = orb.Point{at[0] + x*cos - y*sin, at[1] + x*sin + y*cos}
	}
	return q
}

// apart tells whether a side of either quad separates the two.
func apart(a, b [4]orb.Point) bool {
	for _, q := range [][4]orb.Point{a, b} {
		for i := range 4 {
			n := orb.Point{q[(i+1)%4][1] - q[i][1], q[i][0] - q[(i+1)%4][0]}
			al, ah := shadow(a, n)
			bl, bh := shadow(b, n)
			if ah <= bl || bh <= al {
				return true
			}
		}
	}
	return false
}

func shadow(q [4]orb.Point, n orb.Point) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range q {
		v := c[0]*n[0] + c[1]*n[1]
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}

func TestNoTextLiesOnAnother(t *testing.T) {
	for _, opt := range []plan.Options{{}, {Paper: "A3"}, {Units: "ft"}} {
		var r recorder
		f, err := plan.PlotFigure(sitingtest.Sloping(), opt)
		require.NoError(t, err)
		f.Draw(&r)
		compared := 0
		for i := range r.texts {
			for j := range i {
				if !strings.HasPrefix(r.styled[i].Class, "label") || !strings.HasPrefix(r.styled[j].Class, "label") {
					continue
				}
				compared++
				assert.True(t, apart(quad(r.at[i], r.texts[i], r.styled[i]), quad(r.at[j], r.texts[j], r.styled[j])),
					"%q on %q (%+v)", r.texts[i], r.texts[j], opt)
			}
		}
		assert.Greater(t, compared, 500)
	}
}

func TestGoldenTexts(t *testing.T) {
	var r recorder
	f, err := plan.PlotFigure(sitingtest.Sloping(), plan.Options{Units: geodata.Units("m")})
	require.NoError(t, err)
	f.Draw(&r)
	got := strings.Join(r.texts, "\n") + "\n"
	file := filepath.Join("testdata", "golden", "sloping-texts.txt")
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}
