package plan_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"strconv"
	"strings"
	"testing"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/plan"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cut is a bed of 1.2 m on ground that falls 120 mm, with boards and pegs.
func cut() siting.Bed {
	b := siting.Bed{Name: "Bed <1>", SunkenDepth: &geodata.Estimate{Value: 50, Low: 50, High: 50}}
	b.Pegs = &siting.Pegs{Size: 50, Embedment: geodata.Exactly(200), Point: 60}
	b.Section = &siting.Section{
		Length: 1.2, Ground: []orb.Point{{-.4, 10.04}, {0, 10}, {1.2, 9.88}, {1.6, 9.84}},
		Fill: [][]orb.Point{{{0, 10.15}, {1.2, 10.09}, {1.2, 9.88}, {0, 10}}},
		Boards: []siting.SectionBoard{
			{Name: "uphill board", From: 0, To: .025, Bottom: 9.95, Top: 10.175, Joints: []float64{}},
			{Name: "downhill board", From: 1.175, To: 1.2, Bottom: 9.83, Joints: []float64{9.98}, Top: 10.13},
		},
		Pegs: []siting.SectionPeg{
			{From: -.05, To: 0, Top: 10.15, Bottom: 9.8, Tip: 9.74},
			{From: 1.2, To: 1.25, Top: 10.105, Bottom: 9.68, Tip: 9.62},
		},
	}
	return b
}

// sectionOf is the section as SVG, which must be well formed.
func sectionOf(t *testing.T, b siting.Bed, opt plan.Options) string {
	var out bytes.Buffer
	f, err := plan.SectionFigure(b, opt)
	require.NoError(t, err)
	require.NoError(t, f.SVG(&out, "section-1"))
	d := xml.NewDecoder(bytes.NewReader(out.Bytes()))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else {
			require.NoError(t, err)
		}
	}
	return out.String()
}

// Both ways are drawn to one scale: at 1:25 the 1.2 m between the board's outer
// faces are 48 mm, and a board of 300 mm is 12 mm tall.
func TestSectionIsToScale(t *testing.T) {
	s := sectionOf(t, cut(), plan.Options{})
	assert.Contains(t, s, "scale 1:25")
	var boards [][4]float64
	for _, line := range strings.Split(s, "\n") {
		if strings.Contains(line, `class="section-board"`) {
			boards = append(boards, bounds(t, line))
		}
	}
	require.Len(t, boards, 2)
	assert.InDelta(t, 48, boards[1][2]-boards[0][0], .02)
	assert.InDelta(t, 9, boards[0][3]-boards[0][1], .02)
	assert.InDelta(t, 12, boards[1][3]-boards[1][1], .02)
}

// bounds are the least and greatest x and y of a polygon's points.
func bounds(t *testing.T, line string) [4]float64 {
	_, rest, ok := strings.Cut(line, `points="`)
	require.True(t, ok)
	list, _, _ := strings.Cut(rest, `"`)
	var all orb.MultiPoint
	for _, pair := range strings.Fields(list) {
		var p orb.Point
		x, y, _ := strings.Cut(pair, ",")
		p[0], p[1] = number(t, x), number(t, y)
		all = append(all, p)
	}
	b := all.Bound()
	return [4]float64{b.Left(), b.Bottom(), b.Right(), b.Top()}
}

func TestSectionSaysWhatItShows(t *testing.T) {
	s := sectionOf(t, cut(), plan.Options{})
	for _, want := range []string{
		"Section through Bed &lt;1&gt;", "uphill board 225 mm by 25 mm", "(150 mm on", "edge sunken 50 mm", "compost 150 mm", "compost 210 mm",
		"ground 9.88 m, 120 mm", `id="section-1-title"`,
	} {
		assert.Contains(t, s, want)
	}
	feet := sectionOf(t, cut(), plan.Options{Units: geodata.FeetAndInch})
	assert.Contains(t, feet, "7 7/8 in", "200 mm are 7.87 in, rounded up to eighths")
	assert.NotContains(t, strings.ReplaceAll(feet, "mm\" height", ""), " mm", "no millimetres for those who read inches")
}

func TestSectionOfNothing(t *testing.T) {
	_, err := plan.SectionFigure(siting.Bed{Name: "none"}, plan.Options{})
	assert.ErrorIs(t, err, plan.ErrNoSection)
}

func TestSectionIsTheSameEachTime(t *testing.T) {
	assert.Equal(t, sectionOf(t, cut(), plan.Options{}), sectionOf(t, cut(), plan.Options{}))
}

func number(t *testing.T, s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

func TestSectionsStandUnderOneAnother(t *testing.T) {
	first, second := cut(), cut()
	first.Name, second.Name = "upper", "lower"
	var out bytes.Buffer
	require.NoError(t, plan.SectionsSVG(&out, &siting.Assessment{Beds: []siting.Bed{first, {Name: "none"}, second}}, plan.Options{}))
	var boards [][4]float64
	for _, line := range strings.Split(out.String(), "\n") {
		if strings.Contains(line, `class="section-board"`) {
			boards = append(boards, bounds(t, line))
		}
	}
	require.Len(t, boards, 4)
	assert.Greater(t, boards[2][1], boards[1][3]+20, "the second clear below the first")
	assert.InDelta(t, boards[0][0], boards[2][0], .01)
	assert.NotContains(t, out.String(), ">none<")
	assert.ErrorIs(t, plan.SectionsSVG(&out, &siting.Assessment{}, plan.Options{}), plan.ErrNoSection)
}
