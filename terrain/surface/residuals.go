package surface

import (
	"fmt"
	"math"
	"strings"
)

// uncheckedOver is the leverage over which a height cannot be checked by the
// others; a default of ours.
const uncheckedOver = 0.9

// left is 1 - leverage, or 0 where that is no more than rounding.
func (l *linear) left(i int) float64 {
	if free := 1 - l.leverage[i]; free > 1e-6 {
		return free
	}
	return 0
}

// normalised is a residual over its own standard error under the stated
// precision, r / (sigma sqrt(1 - h)): the surveyor's w-test (Baarda 1968, A
// Testing Procedure for Use in Geodetic Networks, from memory). 0 where the
// other heights cannot check this one.
func (l *linear) normalised(i int) float64 {
	free := l.left(i)
	if free == 0 {
		return 0
	}
	return l.residuals[i] / (l.survey.sigma[i] * math.Sqrt(free))
}

// studentised is the externally studentised residual
// T = t sqrt((n-p-1) / (n-p-t^2)), t internally studentised (Cook and Weisberg
// 1982, chapter 2), Student's t on n-p-1; 0 where it does not exist.
func (l *linear) studentised(i int) float64 {
	if l.df < 2 || l.chi2 == 0 {
		return 0
	}
	df := float64(l.df)
	t := l.normalised(i) / math.Sqrt(l.chi2/df)
	// The others may fit perfectly; the floor keeps T finite.
	return t * math.Sqrt((df-1)/math.Max(df-t*t, 1e-9*df))
}

// leftOut is the height less the surface of the others, metres.
func (l *linear) leftOut(i int) float64 {
	if l.left(i) == 0 {
		return 0
	}
	return l.residuals[i] / l.left(i)
}

func (l *linear) residual(i int) Residual {
	return Residual{
		Name: l.survey.names[i], Residual: l.residuals[i],
		Leverage: l.leverage[i], Studentised: l.studentised(i),
	}
}

// spread is the standard deviation of residuals with df left over.
func spread(rs []Residual, df int) float64 {
	if df <= 0 {
		return 0
	}
	sum := 0.0
	for _, r := range rs {
		sum += r.Residual * r.Residual
	}
	return math.Sqrt(sum / float64(df))
}

// smoothResiduals fills Residuals from a smooth surface. The hat matrix of a
// Gaussian process is 1 - N P, N the noise, so leverage is 1 - noise * P_ii.
func (f *fitting) smoothResiduals(m *Smooth, merged bool) {
	used := 0.0
	z := means(m, f.heights())
	for i := range f.at {
		r := Residual{Name: f.names[i], Residual: f.base + f.z[i] - z[i]}
		if merged {
			r.Studentised = r.Residual / f.sigma[i]
		} else {
			out := m.LeftOut[i]
			r.Leverage = math.Max(0, 1-m.NoiseFactor*m.data.noise[i]/(out.Sigma*out.Sigma))
			r.Studentised = out.Residual / out.Sigma
		}
		used += r.Leverage
		f.fit.Residuals = append(f.fit.Residuals, r)
	}
	left := float64(len(f.at)) - used
	if left > 0 {
		sum := 0.0
		for _, r := range f.fit.Residuals {
			sum += r.Residual * r.Residual
		}
		f.fit.SpreadOfResiduals = math.Sqrt(sum / left)
	}
}

// leftOutSpread is the root mean square of the standardised leave-one-out
// residuals, about 1 where the surface suits the heights.
func (f *Smooth) leftOutSpread() float64 {
	sum := 0.0
	for _, o := range f.LeftOut {
		sum += o.Residual * o.Residual / (o.Sigma * o.Sigma)
	}
	return math.Sqrt(sum / float64(len(f.LeftOut)))
}

// noteUnchecked names heights that only their own reading vouches for. On a
// smooth surface that is every height, more or less, and Uneven says enough.
func (f *fitting) noteUnchecked() {
	if len(f.at) == planeTerms {
		return // said by Why
	}
	const most = 6
	var names []string
	for i, r := range f.fit.Residuals {
		if r.Leverage > uncheckedOver {
			names = append(names, called(r.Name, i))
		}
	}
	if len(names) == 0 {
		return
	}
	text := strings.Join(names[:min(most, len(names))], ", ")
	if len(names) > most {
		text += fmt.Sprintf(" and %d more", len(names)-most)
	}
	f.fit.Notes = append(f.fit.Notes, "The other heights are too far off to check "+text+": a mistake there would not show.")
}

// noteSmooth tells what the hyperparameters say.
func (f *fitting) noteSmooth(m *Smooth, b limits, off float64) {
	say := func(format string, args ...any) {
		f.fit.Notes = append(f.fit.Notes, fmt.Sprintf(format, args...))
	}
	if n := len(f.at); n > mostReadings {
		say("The %d heights were merged into %d blocks for the smooth surface.", n, len(m.alpha))
	}
	if b.atHigh(m.Hyper) {
		say("The heights show one smooth shape across the plot, a slope or a bowl; that is no evidence for a plane.")
	}
	if b.atLow(m.Hyper) {
		say("The ground is rougher than the spacing of the heights: a fall between them is a guess. Take more heights.")
	}
	if off > mostLeftOut {
		say("Left out one at a time, the heights miss the surface of the others by %.1f times what their errors allow.", off)
	}
	if m.NoiseFactor > 1.5 {
		say("The heights scatter by about %.0f mm from one to the next, more than the %.0f mm of their reading error.",
			1000*f.tau*math.Sqrt(m.NoiseFactor), 1000*f.tau)
	}
	if len(f.at) < enoughForSmooth {
		say("With %d heights on uneven ground no fall at a place can be trusted. Take at least %d.", len(f.at), enoughForSmooth)
	}
}
