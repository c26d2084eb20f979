package surface

import (
	"math"
	"runtime"
	"sync"

	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/blas/blas64"
)

// togetherBlock is how many figures are whitened at once: each row of the factor
// is read once for all of them, and reading it is most of the work with many
// heights.
const togetherBlock = 16

// askTogether is ask for several figures, one block of them.
func (f *Smooth) askTogether(at []orb.Point, parts []part) []asked {
	n := len(f.alpha)
	out := make([]asked, len(at))
	for j, p := range at {
		a := asked{at: f.survey.local(p), part: parts[j]}
		a.k = make([]float64, n)
		for i, reading := range f.data.at {
			a.k[i] = f.prior(a, asked{at: reading})
		}
		out[j] = a
	}
	for i := range n { // forward substitution by U', a row of U at a time
		row := blas64.Vector{N: n - i - 1, Inc: 1, Data: f.factor.Data[i*n+i+1 : (i+1)*n]}
		for j := range out {
			k := out[j].k
			k[i] /= f.factor.Data[i*n+i]
			if row.N > 0 {
				blas64.Axpy(-k[i], row, blas64.Vector{N: row.N, Inc: 1, Data: k[i+1:]})
			}
		}
	}
	for j := range out {
		out[j].whitened = f.withTrend(out[j].k, trendRow(out[j]))
	}
	return out
}

// askAll makes ready the heights at nodes, on all cores.
func (f *Smooth) askAll(nodes []orb.Point) []asked {
	out := make([]asked, len(nodes))
	inBlocks(len(nodes), func(from, to int) {
		copy(out[from:], f.askTogether(nodes[from:to], make([]part, to-from)))
	})
	return out
}

// inBlocks does 0 to n-1 on all cores, a block of togetherBlock at a time.
func inBlocks(n int, work func(from, to int)) {
	blocks := make(chan int)
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for from := range blocks {
				work(from, min(n, from+togetherBlock))
			}
		})
	}
	for from := 0; from < n; from += togetherBlock {
		blocks <- from
	}
	close(blocks)
	workers.Wait()
}

// known is the covariance of the gradient at a point and the variance of its
// height.
func (f *Smooth) known(p orb.Point) (cov [2][2]float64, v float64) {
	a := f.askTogether([]orb.Point{p, p, p}, []part{heightPart, eastPart, northPart})
	return f.gradientCovariance(a[1], a[2]), math.Max(0, f.covariance(a[0], a[0]))
}
