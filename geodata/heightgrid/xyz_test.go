package heightgrid_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
)

// xyzLines lists the cells of a grid, from the north, with a corner's centre at
// 1000, 2000 and 0.5 m cells.
func xyzLines(cols, rows int) []string {
	var lines []string
	for r := range rows {
		for c := range cols {
			lines = append(lines, fmt.Sprintf("%.2f %.2f %.3f", 1000+.5*float64(c), 2000-.5*float64(r), sampleHeight(c, r)))
		}
	}
	return lines
}

func TestXYZInAnyOrder(t *testing.T) {
	want := sampled(12, 9, sampleHeight)
	byColumn := make([]string, 0, 108)
	for c := range 12 {
		for r := range 9 {
			byColumn = append(byColumn, xyzLines(12, 9)[r*12+c])
		}
	}
	shuffled := xyzLines(12, 9)
	rand.New(rand.NewPCG(1, 2)).Shuffle(108, func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
	for name, lines := range map[string][]string{"rows": xyzLines(12, 9), "columns": byColumn, "no order": shuffled} {
		for _, end := range []string{"\n", "\r\n"} {
			r := readAll(t, []byte(strings.Join(lines, end)+end), "hill.xyz")
			assert.Equal(t, []any{12, 9, .5, .5, orb.Point{1000, 1996}}, []any{r.Cols, r.Rows, r.CellX, r.CellY, r.Origin}, name)
			sameHeights(t, want, north(r), name)
		}
	}
}

func TestXYZWithGaps(t *testing.T) {
	lines := xyzLines(12, 9)
	kept := make([]string, 0, 108)
	for i, l := range lines {
		if i%5 < 3 { // 66 of 108: just over 60 in 100
			kept = append(kept, l)
		}
	}
	r := readAll(t, []byte(strings.Join(kept, "\n")), "hill.xyz")
	assert.Equal(t, 108-66, r.Missing)
	assert.Equal(t, sampleHeight(5, 0), north(r)[5])
	assert.True(t, math.IsNaN(north(r)[3]))

	kept = kept[:0]
	for i, l := range lines {
		if (i%12+i/12)%2 == 0 { // every second, as on a chess board
			kept = append(kept, l)
		}
	}
	r = readAll(t, []byte(strings.Join(kept, "\n")), "hill.xyz")
	assert.Zero(t, r.Cols)
	assert.Nil(t, r.Z)
	require.Len(t, r.Points, 54)
	assert.Equal(t, heightgrid.Point{At: orb.Point{1001, 2000}, Height: sampleHeight(2, 0)}, r.Points[1])
}

// Coordinates printed with few decimals step unevenly, and the smallest step is
// not the true one.
func TestXYZUnevenSteps(t *testing.T) {
	var b strings.Builder
	for r := range 400 {
		for c := range 3 {
			fmt.Fprintf(&b, "%.2f %.2f %d\n", float64(c)/3, float64(r)/3, 10+c+r%50)
		}
	}
	r := readAll(t, []byte(b.String()), "hill.xyz")
	assert.Equal(t, []int{3, 400, 0}, []int{r.Cols, r.Rows, r.Missing})
	assert.InDelta(t, 1./3, r.CellY, 1e-5)
	assert.Equal(t, 10.0+2+399%50, r.Z[len(r.Z)-1])
}

func TestXYZColumns(t *testing.T) {
	grid := func(head, row string, order ...int) string {
		out := head
		for y := range 3 {
			for x := range 3 {
				v := []any{float64(x) + .5, float64(y) + .5, float64(10 + x + 3*y)}
				line := fmt.Sprintf(row, v[order[0]], v[order[1]], v[order[2]])
				out += line + "\n"
			}
		}
		return out
	}
	want := []float64{10, 11, 12, 13, 14, 15, 16, 17, 18} // from the south
	for name, c := range map[string]struct {
		text string
		ref  heightgrid.Reference
		note string
	}{
		"blanks":                    {grid("", " %v   %v %v ", 0, 1, 2), heightgrid.Reference{}, ""},
		"tabs":                      {grid("", "%v\t%v\t%v", 0, 1, 2), heightgrid.Reference{}, ""},
		"commas":                    {grid("X,Y,Z\n", "%v,%v,%v", 0, 1, 2), heightgrid.Reference{}, ""},
		"commas and blanks":         {grid("", "%v, %v, %v", 0, 1, 2), heightgrid.Reference{}, ""},
		"semicolons, point":         {grid("", "%v;%v;%v", 0, 1, 2), heightgrid.Reference{}, ""},
		"decimal commas":            {strings.ReplaceAll(grid("", "%v %v %v", 0, 1, 2), ".", ","), heightgrid.Reference{}, "grid-decimal-commas"},
		"semicolons and commas":     {strings.ReplaceAll(grid("x;y;z\n", "%v;%v;%v", 0, 1, 2), ".", ","), heightgrid.Reference{}, "grid-decimal-commas"},
		"north first":               {grid("Northing Easting RL\n", "%v %v %v", 1, 0, 2), heightgrid.Reference{}, ""},
		"height first, name behind": {grid("\"height (m)\",\"x\",\"y\",\"note\"\n", "%[3]v,%[1]v,%[2]v,grass", 0, 1, 2), heightgrid.Reference{HeightUnit: geodata.Metre}, ""},
		"more columns":              {grid("", "%v %v %v 255 128 0", 0, 1, 2), heightgrid.Reference{}, "xyz-first-three"},
		"comments":                  {grid("# a survey\n\n//X Y Z\n", "%v %v %v", 0, 1, 2), heightgrid.Reference{}, ""},
		"a commented header":        {grid("# y x z\n", "%v %v %v", 1, 0, 2), heightgrid.Reference{}, ""},
		"a mark of the encoding":    {"\uFEFF" + grid("", "%v %v %v", 0, 1, 2), heightgrid.Reference{}, ""},
		"mark and header":           {"\uFEFF" + grid("x y z\n", "%v %v %v", 0, 1, 2), heightgrid.Reference{}, ""},
		"longitude and latitude":    {grid("lat lon elevation\n", "%v %v %v", 1, 0, 2), heightgrid.Reference{Geographic: true}, "grid-in-degrees"},
	} {
		t.Run(name, func(t *testing.T) {
			r := readAll(t, []byte(c.text), "hill.xyz")
			assert.Equal(t, c.ref, r.Reference)
			sameHeights(t, want, r.Z)
			assert.Equal(t, orb.Point{.5, .5}, r.Origin)
			if c.note != "" {
				assert.Contains(t, codes(r.Notes), c.note)
			}
		})
	}
	r := readAll(t, []byte(grid("x_ft y_ft z_ft\n", "%v %v %v", 0, 1, 2)), "hill.xyz")
	assert.InDelta(t, .3048, r.CellX, 1e-12)
	assert.InDelta(t, 3.048, r.Z[0], 1e-12)
}

func TestXYZFaults(t *testing.T) {
	good := strings.Join(xyzLines(4, 4), "\n") + "\n"
	for name, c := range map[string]struct {
		text string
		at   geodata.Pos
		read string
	}{
		"a word":         {good + "1002 2000 grass\n", geodata.Pos{File: "hill", Line: 17, Col: 11}, "grass"},
		"two numbers":    {good + "1002 2000\n", geodata.Pos{File: "hill", Line: 17, Col: 1}, "1002 2000"},
		"no place":       {good + "1002 nan 12\n", geodata.Pos{File: "hill", Line: 17, Col: 6}, "nan"},
		"an endless row": {good + strings.Repeat("1", 70_000) + "\n", geodata.Pos{File: "hill", Line: 17}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			f := faultOf(t, []byte(c.text))
			require.Equal(t, []string{"xyz-row"}, codes(f))
			assert.Equal(t, c.at, f[0].Pos)
			assert.Equal(t, c.read, f[0].Read)
		})
	}
	assert.Len(t, faultOf(t, []byte(good+strings.Repeat("a b c\n", 50))), 20)
	assert.Equal(t, []string{"xyz-columns"}, codes(faultOf(t, []byte("a,b,c\n1,2,3\n"))))
	assert.Equal(t, []string{"xyz-columns"}, codes(faultOf(t, []byte("x,y,z\n"))))
	assert.Equal(t, []string{"xyz-columns"}, codes(faultOf(t, []byte("# nothing\n"))))
}

func TestXYZMissingAndTwice(t *testing.T) {
	lines := xyzLines(4, 4)
	lines[5] = "1000.5 1999.5 nan"
	lines = append(lines, "1000 2000 9.5", "1000 2000 -9999")
	r := readAll(t, []byte(strings.Join(lines, "\n")), "hill.xyz")
	assert.Equal(t, 2, r.Missing)
	assert.Contains(t, codes(r.Notes), "xyz-cells-differ")
	assert.True(t, math.IsNaN(north(r)[5]))
}

func TestXYZWindows(t *testing.T) {
	src, err := open([]byte(strings.Join(xyzLines(22, 19), "\n")), "hill.xyz")
	require.NoError(t, err)
	checkWindows(t, src)

	src, err = open([]byte("0 0 10\n1 0.3 11\n5 5 12\n5.1 5.7 13\n20 3 14\n"), "spots.xyz")
	require.NoError(t, err)
	info := src.Info()
	assert.True(t, info.Scattered)
	assert.EqualValues(t, 5, info.Points)
	assert.Equal(t, box(0, 0, 20, 5.7), info.Bound)
	r, err := src.Window(context.Background(), box(4, 4, 6, 6))
	require.NoError(t, err)
	assert.Equal(t, []heightgrid.Point{{At: orb.Point{5, 5}, Height: 12}, {At: orb.Point{5.1, 5.7}, Height: 13}}, r.Points)
	_, err = src.Window(context.Background(), box(7, 7, 8, 8))
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	assert.Equal(t, []string{"window-empty"}, codes(faults))
}
