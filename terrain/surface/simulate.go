package surface

import (
	"fmt"
	"math/rand/v2"

	"github.com/paulmach/orb"
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// DefaultDraws is a usual number of draws; a default of ours. With 200 a
// probability is known to about 3.5 points of percent.
const DefaultDraws = 200

// mostValues is the number of heights, nodes times draws, up to which memory is
// asked for.
const mostValues = 50_000_000

// drawBlock is how many draws are multiplied out at once.
const drawBlock = 64

// Draws are grounds drawn by Simulate.
type Draws struct {
	Heights [][]float64 // by draw and node, m
	// Smoothed is the greatest standard deviation, m, of a node about the drawn
	// ground that the draws leave out because only some nodes of smooth ground
	// were drawn; 0 where all were.
	Smoothed float64
}

// Simulate draws grounds that agree with the heights, normal about the fitted
// ground with the joint covariance of HeightCovariance. Plane and curved ground
// is drawn by its coefficients, smooth ground by the Cholesky factor of the
// joint covariance (Rasmussen and Williams 2006, appendix A.2) with a trace,
// 1e-10 of the process's variance and more only if rounding asks for it, on the
// diagonal. Over 500 nodes of smooth ground only those of a coarse lattice,
// sized to the range of its correlation, are drawn so, and the rest take their
// expectation given these and the heights; Smoothed says what that leaves out.
//
// Hyperparameters are held fixed; the widening of standard errors that FitSpots
// makes for that is in the draws too. Draws of a Fit are spread a little more,
// by the ratio of its Quantile to that of the normal distribution, so that 19 in
// 20 lie in the intervals that it gives.
//
// A draw depends on the seed, its own number and the nodes only: not on the
// number of draws or of processors. Errors: no draws, more than 50 million
// heights, a node that is not finite, a surface not fitted by this package.
func Simulate(s Surface, nodes []orb.Point, draws int, seed uint64) (Draws, error) {
	out, err := simulate(s, nodes, draws, seed)
	if err != nil {
		return Draws{}, fmt.Errorf("simulate ground: %w", err)
	}
	return out, nil
}

func simulate(s Surface, nodes []orb.Point, draws int, seed uint64) (Draws, error) {
	a, err := askerOf(s)
	if err != nil {
		return Draws{}, err
	}
	if draws < 1 || draws > mostValues/max(1, len(nodes)) {
		return Draws{}, fmt.Errorf("%d draws at %d nodes: between 1 draw and %d heights in all", draws, len(nodes), mostValues)
	}
	for i, p := range nodes {
		if !finite(p) {
			return Draws{}, fmt.Errorf("node %d at %v is not finite", i+1, p)
		}
	}
	out, err := a.draw(nodes, draws, seed)
	if f, ok := s.(*Fit); ok && err == nil && f.Quantile > 0 {
		spreadOut(out.Heights, means(a, nodes), f.Quantile/normal95())
	}
	return out, err
}

// spreadOut moves heights away from their means by a factor.
func spreadOut(heights [][]float64, mean []float64, by float64) {
	for _, z := range heights {
		for i, m := range mean {
			z[i] = m + by*(z[i]-m)
		}
	}
}

// multiply is mean + root xi for independent normal xi, a row for each draw.
func multiply(mean []float64, root blas64.General, draws int, seed uint64) [][]float64 {
	n, m := root.Rows, root.Cols
	out := make([][]float64, 0, draws)
	xi := make([]float64, drawBlock*m)
	for first := 0; first < draws; first += drawBlock {
		count := min(drawBlock, draws-first)
		for r := range count {
			rng := rand.New(rand.NewPCG(seed, uint64(first+r)))
			for j := range m {
				xi[r*m+j] = rng.NormFloat64()
			}
		}
		z := make([]float64, count*n)
		for r := range count {
			copy(z[r*n:], mean)
		}
		if n > 0 && m > 0 {
			blas64.Gemm(blas.NoTrans, blas.Trans, 1,
				blas64.General{Rows: count, Cols: m, Stride: m, Data: xi}, root,
				1, blas64.General{Rows: count, Cols: n, Stride: n, Data: z})
		}
		for r := range count {
			out = append(out, z[r*n:(r+1)*n:(r+1)*n])
		}
	}
	return out
}

// means are the fitted heights at the nodes.
func means(s Surface, nodes []orb.Point) []float64 {
	out := make([]float64, len(nodes))
	inBlocks(len(nodes), func(from, to int) {
		for i := from; i < to; i++ {
			out[i], _ = s.HeightAt(nodes[i])
		}
	})
	return out
}

// draw takes the coefficients b + L xi, L L' their covariance.
func (l *linear) draw(nodes []orb.Point, draws int, seed uint64) (Draws, error) {
	p := l.terms
	cov := make([]float64, p*p)
	for i := range p {
		for j := range p {
			cov[i*p+j] = l.factor * l.inv.At(i, j)
		}
	}
	if l.factor == 0 { // the heights lie exactly on the model and speak for their own error
		return Draws{Heights: multiply(means(l, nodes), blas64.General{Rows: len(nodes), Stride: 1}, draws, seed)}, nil
	}
	root, ok := lowerFactor(cov, p)
	if !ok {
		return Draws{}, errNotPositive
	}
	at := make([]float64, len(nodes)*p)
	for i, q := range nodes {
		copy(at[i*p:], l.basis(l.survey.local(q)))
	}
	if len(nodes) > 0 {
		blas64.Trmm(blas.Right, blas.NoTrans, 1,
			blas64.Triangular{Uplo: blas.Lower, Diag: blas.NonUnit, N: p, Stride: p, Data: root},
			blas64.General{Rows: len(nodes), Cols: p, Stride: p, Data: at})
	}
	return Draws{Heights: multiply(means(l, nodes), blas64.General{Rows: len(nodes), Cols: p, Stride: p, Data: at}, draws, seed)}, nil
}

// lowerFactor is the lower Cholesky factor of a full symmetric matrix, with
// zeros above the diagonal.
func lowerFactor(full []float64, n int) ([]float64, bool) {
	root := append([]float64(nil), full...)
	if n == 0 {
		return root, true
	}
	_, ok := lapack64.Potrf(blas64.Symmetric{Uplo: blas.Lower, N: n, Stride: n, Data: root})
	for i := range n {
		clear(root[i*n+i+1 : (i+1)*n])
	}
	return root, ok
}
