package rain

import "math"

// LevelError is the standard error of ReturnLevel by the delta method with the
// observed information (Coles 2001, section 3.3.3). The intervals it gives are
// symmetric, which those of rare levels are not: bands come from the bootstrap,
// and this is for comparing. NaN unless years is over 1.
func (f GEVFit) LevelError(years float64) float64 {
	if !(years > 1) {
		return math.NaN()
	}
	y := -math.Log(-math.Log1p(-1 / years))
	s, unit := f.Shape, f.GEV
	unit.Location, unit.Scale = 0, 1
	grad := [3]float64{1, unit.ReturnLevel(years), f.Scale * y * y / 2}
	if math.Abs(s) >= nearGumbel {
		grad[2] = f.Scale * (s*y*math.Exp(s*y) - math.Expm1(s*y)) / (s * s)
	}
	v := 0.0
	for i := range grad {
		for j := range grad {
			v += grad[i] * f.Covariance[i][j] * grad[j]
		}
	}
	return math.Sqrt(v)
}

// LevelError is the standard error of ReturnLevel by the delta method (Coles
// 2001, section 4.3.3) for a record of so many observations with perYear
// exceedances in a year, the count of which is taken as binomial. NaN where
// ReturnLevel is.
func (f GPDFit) LevelError(years, perYear float64, observations int) float64 {
	m := years * perYear
	if !(m >= 1) || observations < f.N {
		return math.NaN()
	}
	l, s := math.Log(m), f.Shape
	gradScale, gradShape := l, f.Scale*l*l/2
	if math.Abs(s) >= nearGumbel {
		gradScale = math.Expm1(s*l) / s
		gradShape = f.Scale * (s*l*math.Exp(s*l) - math.Expm1(s*l)) / (s * s)
	}
	// the variance of the logarithm of the share of days above the threshold
	share := float64(f.N) / float64(observations)
	count := (1 - share) / (share * float64(observations))
	rate := f.Scale * math.Exp(s*l)
	return math.Sqrt(gradScale*gradScale*f.Covariance[0][0] + 2*gradScale*gradShape*f.Covariance[0][1] +
		gradShape*gradShape*f.Covariance[1][1] + rate*rate*count)
}
