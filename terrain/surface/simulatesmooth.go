package surface

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
)

// Limits of the simulation of smooth ground, defaults of ours.
const (
	// exactNodes is the number of nodes up to which all are drawn; past it only
	// anchors are, on a lattice with a spacing of the range over anchorsPerRange,
	// wider where that makes over mostAnchors.
	exactNodes      = 500
	mostAnchors     = 1500
	anchorsPerRange = 4.0
	// nodeBlock is how many nodes between anchors are worked out at once.
	nodeBlock = 2048
)

// draw takes heights m + L xi at the anchors, L L' their joint covariance, and
// at any other node its expectation given the heights surveyed and those: with c
// its covariances with the anchors, m + c'(L L')^-1 L xi = m + (L^-1 c)' xi.
func (f *Smooth) draw(nodes []orb.Point, draws int, seed uint64) (Draws, error) {
	anchors := f.askAll(f.anchors(nodes))
	root, err := f.rootOf(anchors)
	if err != nil {
		return Draws{}, err
	}
	n := len(nodes)
	if n == len(anchors) {
		return Draws{Heights: multiply(means(f, nodes), root, draws, seed)}, nil
	}
	out := Draws{Heights: make([][]float64, draws)}
	for r := range out.Heights {
		out.Heights[r] = make([]float64, 0, n)
	}
	for from := 0; from < n; from += nodeBlock {
		some := nodes[from:min(n, from+nodeBlock)]
		at, smoothed := f.between(f.askAll(some), anchors, root)
		for r, z := range multiply(means(f, some), at, draws, seed) {
			out.Heights[r] = append(out.Heights[r], z...)
		}
		out.Smoothed = math.Max(out.Smoothed, smoothed)
	}
	return out, nil
}

// anchors are the nodes drawn: all of few, else those nearest to the corners of
// a lattice over their bound, row by row.
func (f *Smooth) anchors(nodes []orb.Point) []orb.Point {
	if len(nodes) <= exactNodes {
		return nodes
	}
	bound := orb.MultiPoint(nodes).Bound()
	for cell := f.Range / anchorsPerRange; ; cell *= 1.1 {
		if out := nearestCorners(nodes, bound, cell); len(out) <= mostAnchors {
			return out
		}
	}
}

// nearestCorners is for each corner of a lattice the nearest of the nodes that
// lie within half a cell of it. The lattice begins and ends on the bound, so
// that no node lies beyond the outermost anchors.
func nearestCorners(nodes []orb.Point, bound orb.Bound, cell float64) []orb.Point {
	type corner struct{ row, col int }
	var step orb.Point
	for k := range step {
		side := bound.Max[k] - bound.Min[k]
		step[k] = math.Max(side, cell) / math.Max(1, math.Round(side/cell))
	}
	best := map[corner]int{}
	var order []corner
	off := func(i int, c corner) float64 {
		return planar.Distance(nodes[i], orb.Point{bound.Min[0] + step[0]*float64(c.col), bound.Min[1] + step[1]*float64(c.row)})
	}
	for i, p := range nodes {
		c := corner{int(math.Round((p[1] - bound.Min[1]) / step[1])), int(math.Round((p[0] - bound.Min[0]) / step[0]))}
		j, ok := best[c]
		if !ok {
			order = append(order, c)
		}
		if !ok || off(i, c) < off(j, c) {
			best[c] = i
		}
	}
	slices.SortFunc(order, func(a, b corner) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col))
	})
	out := make([]orb.Point, len(order))
	for k, c := range order {
		out[k] = nodes[best[c]]
	}
	return out
}

// whitenedRows are the whitened columns of what is asked, a row for each.
func whitenedRows(all []asked, width int) blas64.General {
	w := blas64.General{Rows: len(all), Cols: width, Stride: max(1, width), Data: make([]float64, len(all)*width)}
	for i, a := range all {
		copy(w.Data[i*width:], a.k)
	}
	return w
}

// rest is the part of a covariance that is not in the whitened columns.
func (f *Smooth) rest(a, b asked) float64 {
	return f.reduced(f.prior(a, b), whitened{u: a.u}, whitened{u: b.u})
}

// rootOf is the lower Cholesky factor of the joint covariance.
func (f *Smooth) rootOf(all []asked) (blas64.General, error) {
	n, wide := len(all), f.Widening*f.Widening
	cov := make([]float64, n*n)
	if n == 0 {
		return blas64.General{Stride: 1}, nil
	}
	blas64.Syrk(blas.NoTrans, -wide, whitenedRows(all, len(f.alpha)), 0, blas64.Symmetric{Uplo: blas.Lower, N: n, Stride: n, Data: cov})
	for i := range n {
		for j := range i + 1 {
			cov[i*n+j] += f.rest(all[i], all[j])
		}
	}
	for jitter := 1e-10; jitter < 2e-6; jitter *= 10 {
		for i := range n {
			cov[i*n+i] += jitter * f.Variance * wide
		}
		if root, ok := lowerFactor(cov, n); ok {
			return blas64.General{Rows: n, Cols: n, Stride: n, Data: root}, nil
		}
	}
	return blas64.General{}, errNotPositive
}

// between is (L^-1 c)' for nodes whose covariances with the anchors are c, a row
// for each node, and the greatest standard deviation of a node that it leaves
// out, m.
func (f *Smooth) between(nodes, anchors []asked, root blas64.General) (at blas64.General, smoothed float64) {
	n, m, wide := len(nodes), len(anchors), f.Widening*f.Widening
	at = blas64.General{Rows: n, Cols: m, Stride: m, Data: make([]float64, n*m)}
	width := len(f.alpha)
	blas64.Gemm(blas.NoTrans, blas.Trans, -wide, whitenedRows(nodes, width), whitenedRows(anchors, width), 0, at)
	for i, a := range nodes {
		for j, b := range anchors {
			at.Data[i*m+j] += f.rest(a, b)
		}
	}
	blas64.Trsm(blas.Right, blas.Trans, 1, blas64.Triangular{Uplo: blas.Lower, Diag: blas.NonUnit, N: m, Stride: m, Data: root.Data}, at)
	for i, a := range nodes {
		row := at.Data[i*m : (i+1)*m]
		smoothed = math.Max(smoothed, f.covariance(a, a)-dot(row, row))
	}
	return at, math.Sqrt(smoothed)
}
