package surface

import (
	"math"

	"gonum.org/v1/gonum/blas/blas64"
)

// smallMatrix is the number of readings up to which the loops below beat the
// library's, which are made for blocks of larger matrices.
const smallMatrix = 96

// forward solves U'x = b for the four columns of b, a row for each reading.
func forward(t blas64.Triangular, b []float64) {
	n := t.N
	for k := range n {
		u := t.Data[k*n : (k+1)*n]
		x := b[4*k : 4*k+4 : 4*k+4]
		for c := range x {
			x[c] /= u[k]
		}
		for i := k + 1; i < n; i++ {
			y := b[4*i : 4*i+4 : 4*i+4]
			for c := range y {
				y[c] -= u[i] * x[c]
			}
		}
	}
}

// backward solves Ux = b likewise.
func backward(t blas64.Triangular, b []float64) {
	n := t.N
	for k := n - 1; k >= 0; k-- {
		u := t.Data[k*n : (k+1)*n]
		x := b[4*k : 4*k+4 : 4*k+4]
		for i := k + 1; i < n; i++ {
			y := b[4*i : 4*i+4 : 4*i+4]
			for c := range x {
				x[c] -= u[i] * y[c]
			}
		}
		for c := range x {
			x[c] /= u[k]
		}
	}
}

// inverse writes the upper half of (U'U)^-1 over U; false where it is not
// finite. room holds n by n.
func inverse(t blas64.Triangular, room []float64) bool {
	n := t.N
	clear(room[:n*n])
	for i := range n { // the rows of U'^-1, lower triangular
		row := room[i*n : i*n+i+1]
		row[i] = 1
		for k := range i {
			axpy(-t.Data[k*n+i], room[k*n:k*n+k+1], row)
		}
		d := t.Data[i*n+i]
		for j := range row {
			row[j] /= d
		}
	}
	for i := range n {
		clear(t.Data[i*n+i : (i+1)*n])
	}
	for k := range n {
		row := room[k*n : k*n+k+1]
		for i := range row {
			axpy(row[i], row[i:], t.Data[i*n+i:i*n+k+1])
		}
	}
	last := t.Data[n*n-1]
	return !math.IsNaN(last - last)
}

// axpy adds a x to y.
func axpy(a float64, x, y []float64) {
	blas64.Axpy(a, blas64.Vector{N: len(x), Inc: 1, Data: x}, blas64.Vector{N: len(x), Inc: 1, Data: y})
}
