package plan_test

import (
	"context"
	"math"
	"path/filepath"
	"sync"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/plan"

	"codeberg.org/go-pdf/fpdf"
	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func example(t *testing.T, name string) *siting.Assessment {
	t.Helper()
	p, err := plotfolder.Read(filepath.Join("..", "..", "testdata", name), plotfolder.Options{})
	require.NoError(t, err)
	a, err := siting.Assess(context.Background(), p, siting.Options{})
	require.NoError(t, err)
	return a
}

// figures are all drawings of an assessment but those of storms.
func figures(t *testing.T, a *siting.Assessment, opt plan.Options) map[string]plan.Figure {
	t.Helper()
	out := map[string]plan.Figure{}
	add := func(name string, f plan.Figure, err error) {
		require.NoError(t, err, name)
		out[name] = f
	}
	f, err := plan.PlotFigure(a, opt)
	add("plan", f, err)
	f, err = plan.KeyFigure(a, opt, 150)
	add("key plan", f, err)
	f, err = plan.FallFigure(a)
	add("fall", f, err)
	f, err = plan.SunFigure(a)
	add("sun", f, err)
	for _, f := range plan.RainFigures(a, opt) {
		add(f.Title, f, nil)
	}
	for _, b := range a.Quantities.Boards {
		f, err := plan.CutFigure(b, opt)
		add(f.Title, f, err)
	}
	f, err = plan.SectionsFigure(a, opt)
	add("sections", f, err)
	return out
}

// On every drawing of the example plots no text lies on another or runs off the
// paper.
func TestEveryTextCanBeRead(t *testing.T) {
	for _, name := range []string{"hillside", "hillside-pinned"} {
		a := example(t, name)
		for _, units := range []geodata.Units{"m", "ft"} {
			for what, f := range figures(t, a, plan.Options{Units: units, Date: "1 March 2026", Version: "1.2.3"}) {
				var r recorder
				f.Draw(&r)
				assert.NotEmpty(t, r.texts, what)
				quads := make([][4]orb.Point, len(r.texts))
				for i := range r.texts {
					quads[i] = anchored(t, r, i)
					q := quads[i]
					for _, c := range q {
						assert.True(t, c[0] > -.5 && c[1] > -.5 && c[0] < f.Width+.5 && c[1] < f.Height+.5, "%s, %s in %s: %q runs off", name, what, units, r.texts[i])
					}
					for j := range i {
						assert.True(t, apart(q, quads[j]), "%s, %s in %s: %q on %q", name, what, units, r.texts[i], r.texts[j])
					}
				}
			}
		}
	}
}

// measuring is a document without a page: it only measures.
var measuring = sync.OnceValue(func() *fpdf.Fpdf { return plan.NewPDF("", "") })

// wide is the width of a text in the typeface of the PDF and the PNG.
func wide(t *testing.T, text string, s plan.TextStyle) float64 {
	t.Helper()
	doc := measuring()
	weight := ""
	if s.Bold {
		weight = "B"
	}
	doc.SetFont(plan.PDFFace, weight, s.Size*72/25.4)
	return doc.GetStringWidth(text)
}

// anchored is the ground under a text wherever its point is on it.
func anchored(t *testing.T, r recorder, i int) [4]orb.Point {
	s := r.styled[i]
	w := wide(t, r.texts[i], s)
	x := [...]float64{plan.Middle: -w / 2, plan.Start: 0, plan.End: -w}[s.Anchor]
	h := .7 * s.Size
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	var q [4]orb.Point
	for k, c := range [4][2]float64{{x, -h / 2}, {x + w, -h / 2}, {x + w, h / 2}, {x, h / 2}} {
		q[k] = orb.Point{r.at[i][0] + c[0]*cos - c[1]*sin, r.at[i][1] + c[0]*sin + c[1]*cos}
	}
	return q
}
