package layout

import (
	"context"
	"fmt"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkBesideSolver arranges the beds of a small random plot in turn here,
// by annealing from nothing, and by a mixed-integer solver, which proves its
// optimum besides. solver-ms is its time from start to end, ratio ours over that,
// of-optimum-percent what ours comes to.
func BenchmarkBesideSolver(b *testing.B) {
	glpsol, err := exec.LookPath("glpsol")
	if err != nil {
		b.Skip("glpsol (of the package glpk-utils) is not installed")
	}
	for _, seed := range []uint64{1, 2, 6} {
		f, count := randomPlot(seed)
		b.Run(fmt.Sprintf("places=%d/beds=%d", len(f.sites), count), func(b *testing.B) {
			var theirs time.Duration
			of := 0.0
			for b.Loop() {
				beds, err := f.polish(context.Background(), make([][]int, 8), nil, count, 20_000)
				require.NoError(b, err)
				b.StopTimer()
				start := time.Now()
				optimum, feasible := optimumBy(b, glpsol, f, count)
				theirs += time.Since(start)
				require.True(b, feasible)
				of = 100 * f.score(beds) / optimum
				b.StartTimer()
			}
			b.ReportMetric(theirs.Seconds()*1000/float64(b.N), "solver-ms")
			b.ReportMetric(b.Elapsed().Seconds()/theirs.Seconds(), "ratio")
			b.ReportMetric(of, "of-optimum-percent")
		})
	}
}
