package heightgrid_test

import (
	"bytes"
	"context"
	"math"
	"sync/atomic"
	"testing"

	"github.com/paulmach/orb"
	"github.com/stretchr/testify/require"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
)

func open(file []byte, name string) (*heightgrid.Source, error) {
	return heightgrid.Open(bytes.NewReader(file), int64(len(file)), name)
}

// readAll opens and reads the whole file, which must go well.
func readAll(t testing.TB, file []byte, name string) *heightgrid.Raster {
	t.Helper()
	s, err := open(file, name)
	require.NoError(t, err)
	r, err := s.All(context.Background())
	require.NoError(t, err)
	return r
}

// faultOf opens and reads a file that must be refused, and gives its faults.
func faultOf(t testing.TB, file []byte) geodata.Faults {
	t.Helper()
	s, err := open(file, "hill")
	if err == nil {
		_, err = s.All(context.Background())
	}
	require.Error(t, err)
	var faults geodata.Faults
	require.ErrorAs(t, err, &faults)
	for _, f := range faults {
		require.NotEmpty(t, f.Code)
		require.NotEmpty(t, f.Message)
		require.Equal(t, "hill", f.Pos.File)
	}
	return faults
}

// codes lists the codes of faults.
func codes(fs geodata.Faults) []string {
	out := []string{}
	for _, f := range fs {
		out = append(out, f.Code)
	}
	return out
}

// north gives a raster's heights row by row from the north.
func north(r *heightgrid.Raster) []float64 {
	var out []float64
	for row := r.Rows - 1; row >= 0; row-- {
		out = append(out, r.Z[row*r.Cols:(row+1)*r.Cols]...)
	}
	return out
}

// sameHeights compares heights, NaN equal to NaN.
func sameHeights(t testing.TB, want, got []float64, what ...any) {
	t.Helper()
	require.Len(t, got, len(want), what...)
	for i := range want {
		if want[i] != got[i] && !(math.IsNaN(want[i]) && math.IsNaN(got[i])) {
			require.Failf(t, "another height", "place %d: want %v, got %v; %v", i, want[i], got[i], what)
		}
	}
}

// sampleHeight is ground of whole numbers from 10 to 109, which every type of
// number holds.
func sampleHeight(col, row int) float64 { return float64((3*col+7*row)%100 + 10) }

// sampled lists heights from the north.
func sampled(cols, rows int, z func(col, row int) float64) []float64 {
	var out []float64
	for r := range rows {
		for c := range cols {
			out = append(out, z(c, r))
		}
	}
	return out
}

func box(x0, y0, x1, y1 float64) orb.Bound {
	return orb.Bound{Min: orb.Point{x0, y0}, Max: orb.Point{x1, y1}}
}

// counting counts what is read of a file.
type counting struct {
	*bytes.Reader
	bytes, calls atomic.Int64
}

func (c *counting) ReadAt(p []byte, at int64) (int, error) {
	n, err := c.Reader.ReadAt(p, at)
	c.bytes.Add(int64(n))
	c.calls.Add(1)
	return n, err
}
