package surface

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// whole puts the parts together.
func (b *breaking) whole() *Fit {
	out := &Fit{Kind: PiecesKind, Sigma: b.tau, Residuals: make([]Residual, len(b.spots))}
	out.Pieces = &Pieces{Parts: b.parts, origin: b.origin, faces: b.faces}
	out.Surface = out.Pieces
	out.Notes = append(out.Notes, b.notes...)
	var kinds []string
	squares, count := 0.0, 0
	for _, p := range b.parts {
		if p.Fit == nil {
			kinds = append(kinds, fmt.Sprintf("%s leans on part %d", p.Name, p.LeansOn+1))
			continue
		}
		kinds = append(kinds, p.Name+": "+p.Fit.Why)
		out.Uneven = out.Uneven || p.Fit.Uneven
		out.Quantile = math.Max(out.Quantile, p.Fit.Quantile)
		out.Tests = append(out.Tests, p.Fit.Tests...)
		squares += p.Fit.SpreadOfResiduals * p.Fit.SpreadOfResiduals * float64(len(p.Heights))
		count += len(p.Heights)
		for _, n := range p.Fit.Notes {
			out.Notes = append(out.Notes, sentence(p.Name)+": "+n)
		}
		for _, s := range p.Fit.Suspects {
			s.Index = p.Heights[s.Index]
			if !slices.ContainsFunc(out.Suspects, func(t Suspect) bool { return t.Index == s.Index }) {
				out.Suspects = append(out.Suspects, s)
			}
		}
	}
	out.Why = "the ground is in parts along its break lines; " + strings.Join(kinds, "; ")
	out.SpreadOfResiduals = math.Sqrt(squares / float64(count))
	out.Plane = b.commonFall()
	for i := range b.spots {
		out.Residuals[i] = b.residualOf(i)
	}
	return out
}

// residualOf is a height's residual in its own part.
func (b *breaking) residualOf(i int) Residual {
	p := b.parts[b.own[i]]
	if p.Fit != nil {
		return p.Fit.Residuals[slices.Index(p.Heights, i)]
	}
	z, _ := p.ground.HeightAt(b.plotPoint(i))
	return Residual{Name: b.names[i], Residual: b.base + b.z[i] - z, Leverage: 1}
}

// commonFall is the weighted least-squares gradient common to all parts, each
// at its own level: that of the heights less the means of their parts (the
// theorem of Frisch and Waugh 1933, Econometrica 1, 387-401, from memory). Where
// the heights of every part stand in one direction it is largestFall.
func (b *breaking) commonFall() *Plane {
	var n square
	var r [2]float64
	type reading struct{ u, v, z, w float64 }
	var all []reading
	levels := 0
	for f := range b.faces {
		var x, y, z, sum float64
		first := len(all)
		for i, own := range b.own {
			if own != f {
				continue
			}
			w := 1 / (b.sigma[i] * b.sigma[i])
			all = append(all, reading{b.at[i][0], b.at[i][1], b.z[i], w})
			x, y, z, sum = x+w*b.at[i][0], y+w*b.at[i][1], z+w*b.z[i], sum+w
		}
		for k := first; k < len(all); k++ {
			a := &all[k]
			a.u, a.v, a.z = a.u-x/sum, a.v-y/sum, a.z-z/sum
			n[0][0] += a.w * a.u * a.u
			n[0][1] += a.w * a.u * a.v
			n[1][1] += a.w * a.v * a.v
			r[0] += a.w * a.u * a.z
			r[1] += a.w * a.v * a.z
		}
		if len(all) > first {
			levels++
		}
	}
	det := n[0][0]*n[1][1] - n[0][1]*n[0][1]
	if trace := n[0][0] + n[1][1]; !(det > trace*trace/(lineLimit*lineLimit)) {
		return b.largestFall()
	}
	p := &Plane{Quantile: normal95(), Passes: true}
	p.Covariance = square{{n[1][1] / det, -n[0][1] / det}, {-n[0][1] / det, n[0][0] / det}}
	p.Gradient.East = p.Covariance[0][0]*r[0] + p.Covariance[0][1]*r[1]
	p.Gradient.North = p.Covariance[1][0]*r[0] + p.Covariance[1][1]*r[1]
	chi2, df := 0.0, len(all)-levels-2
	for _, a := range all {
		e := a.z - p.Gradient.East*a.u - p.Gradient.North*a.v
		chi2 += a.w * e * e
	}
	if p.Passes = chi2 <= chiLimit(df); !p.Passes {
		for i := range 2 {
			for j := range 2 {
				p.Covariance[i][j] *= chi2 / float64(df)
			}
		}
		p.Quantile = student95(float64(df))
	}
	return p
}

// largestFall is the fall of the fitted part with most heights.
func (b *breaking) largestFall() *Plane {
	best := -1
	for i, p := range b.parts {
		if p.Fit != nil && (best < 0 || len(p.Heights) > len(b.parts[best].Heights)) {
			best = i
		}
	}
	return b.parts[best].Fit.Plane
}
