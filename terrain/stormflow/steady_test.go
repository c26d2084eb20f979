package stormflow_test

import (
	"math"
	"testing"

	"crossfall/terrain/stormflow"

	"github.com/stretchr/testify/assert"
)

// A profile chosen first and the bed found from it, so that it is the exact
// steady solution of the equations without convection (the way of MacDonald et
// al. 1997, Journal of Hydraulic Engineering 123:1041-1045): dz/dx = -h' - n² q²
// / h^(10/3) with q = r x. The error falls in proportion to the cell.
func TestSteadyProfile(t *testing.T) {
	const length, manning, rain = 20.0, 0.05, 60 * mmPerHour
	depth := func(x float64) float64 { return 0.004 + 0.012*math.Exp(-math.Pow((x-12)/2.5, 2)) }
	slope := func(x float64) float64 {
		d := -2 * (x - 12) / (2.5 * 2.5) * (depth(x) - 0.004)
		return -d - math.Pow(manning*rain*x, 2)/math.Pow(depth(x), 10.0/3)
	}
	errs := map[float64]float64{}
	cells := []float64{0.4, 0.2, 0.1}
	for _, cell := range cells {
		n := int(math.Round(length / cell))
		spec := strip(length, cell, 0)
		spec.Ground[0] = 10
		for i := 1; i < n; i++ {
			a, b := (float64(i)-0.5)*cell, (float64(i)+0.5)*cell
			spec.Ground[i] = spec.Ground[i-1] + simpson(slope, a, b, 40)
		}
		spec.EdgeSlope = -slope(length)
		out, sum := 0.0, 0.0
		mustRun(t, mustModel(t, spec), stormflow.Storm{
			Rain: steady(rain, 3000), Duration: 3000, Materials: []stormflow.Material{{Manning: manning}},
		}, stormflow.Options{ObserveEvery: 3000, Observe: func(s stormflow.State) {
			out = s.East(n, 0)
			for i := range n {
				sum += math.Abs(s.Depth(i, 0) - depth((float64(i)+0.5)*cell))
			}
		}})
		mean := 0.0
		for i := range n {
			mean += depth((float64(i) + 0.5) * cell)
		}
		errs[cell] = sum / mean
		assert.InDelta(t, 1, out/(rain*length), 1e-6)
	}
	t.Logf("mean error of depth: %.2f %% at 0.4 m, %.2f %% at 0.2 m, %.2f %% at 0.1 m", 100*errs[0.4], 100*errs[0.2], 100*errs[0.1])
	assert.Less(t, errs[0.1], 0.005)
	for _, cell := range cells[:2] {
		assert.InDelta(t, 2, errs[cell]/errs[cell/2], 0.25, "first order")
	}
}

func simpson(f func(float64) float64, a, b float64, n int) float64 {
	h := (b - a) / float64(n)
	sum := f(a) + f(b)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * f(a+float64(i)*h)
	}
	return sum * h / 3
}
