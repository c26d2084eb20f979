package surface

import (
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
)

// What reference values are checked on: surfaces at parameters that FitSpots
// seeks for itself.

// SmoothWith is the smooth surface of at least 4 heights at given
// hyperparameters, without any widening.
func SmoothWith(spots []geodata.SpotHeight, h Hyper, opt Options) (*Smooth, error) {
	s, err := newSurvey(spots, opt)
	if err != nil {
		return nil, err
	}
	if h.NoiseFactor == 0 {
		h.NoiseFactor = 1
	}
	if len(spots) < 4 {
		return nil, ErrTooFewHeights
	}
	for _, v := range []float64{h.Range, h.Variance, h.NoiseFactor} {
		if !(v > 0) || math.IsInf(v, 1) {
			return nil, errors.New("range, variance and noise factor must be over 0")
		}
	}
	return newSmooth(s, s.readings(), h)
}

// FitThinPlate is the thin plate of 4 to 500 heights at a given Lambda, or at
// the one of least Score for lambda 0, sought over twelve decades among those
// whose Freedom is at most half the number of heights: on few heights the score
// alone now and then takes noise for ground. Heights count alike whatever their
// Sigma. Errors are those of FitSpots.
func FitThinPlate(spots []geodata.SpotHeight, lambda float64) (*ThinPlate, error) {
	s, err := newSurvey(spots, Options{})
	if err != nil {
		return nil, fmt.Errorf("fit thin plate: %w", err)
	}
	if math.IsNaN(lambda-lambda) || lambda < 0 {
		return nil, fmt.Errorf("fit thin plate: smoothing %v is not over 0", lambda)
	}
	p, err := newPlate(s)
	if err != nil {
		return nil, fmt.Errorf("fit thin plate: %w", err)
	}
	if lambda == 0 {
		lambda, _ = p.search()
	}
	return p.at(lambda)
}
