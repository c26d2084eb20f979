package erosion

import (
	"fmt"
	"math"

	"crossfall/geodata"
)

// Site is a slope and the rain on it.
type Site struct {
	Erosivity   geodata.Estimate // of a mean year
	Erodibility geodata.Estimate // of the soil
	Slope       geodata.Estimate
	Run         geodata.Estimate // uninterrupted run of water down the slope, m
}

// Loss is the yearly soil loss under one cover.
type Loss struct {
	Cover   Cover
	Loss    geodata.Estimate // t/ha a year
	Said    string           // beside what soil forms in a year
	Because string           // the factors, in words
}

const (
	// bandPlot is how far the product of the factors may be off on a plot,
	// either way; bandSteep is the same on 18 to 35 %, beyond the slopes that
	// the factors were measured on. Defaults of ours.
	bandPlot  = 4.0
	bandSteep = 6.0
	measured  = 0.18
	refused   = 0.35
)

// YearlyLoss is the yearly soil loss (Agriculture Handbook 703, 1997) of a slope
// under each cover: erosivity times erodibility, slope factor and cover factor,
// in a band of 4 either way, of 6 over a fall of 18 %, and never narrower than
// the cover's own. Runs over 122 m count as 122 m. Over 35 %, and where a factor
// is not over 0, it is ErrRange: no measurement stands behind it.
func YearlyLoss(s Site) ([]Loss, error) {
	if !(s.Slope.Value <= refused) {
		return nil, fmt.Errorf("a fall of %.0f %%, where soil loss is told up to 35 %%: %w", s.Slope.Value*100, ErrRange)
	}
	if !(s.Erosivity.Value > 0 && s.Erodibility.Value > 0) {
		return nil, fmt.Errorf("erosivity %g and erodibility %g must be over 0: %w", s.Erosivity.Value, s.Erodibility.Value, ErrRange)
	}
	ls, err := SlopeFactor(s.Slope.Value, s.Run.Value, ModerateRill)
	if err != nil {
		return nil, err
	}
	band := bandPlot
	if s.Slope.Value > measured {
		band = bandSteep
	}
	bare := s.Erosivity.Value * s.Erodibility.Value * ls
	var out []Loss
	for _, c := range Covers() {
		f := c.factor()
		e := geodata.Estimate{Value: bare * f.Value}
		e.Low, e.High = math.Min(e.Value/band, bare*f.Low), math.Max(e.Value*band, bare*f.High)
		out = append(out, Loss{Cover: c, Loss: e, Said: formed(e), Because: s.because(ls, f.Value)})
	}
	return out, nil
}

// because names the factors.
func (s Site) because(ls, cover float64) string {
	return fmt.Sprintf("erosivity %.0f MJ mm/(ha h) a year, erodibility %.3f t ha h/(ha MJ mm), slope factor %.2f for a run of %.0f m at %.1f %%, cover factor %.3g",
		s.Erosivity.Value, s.Erodibility.Value, ls, math.Min(s.Run.Value, longest), s.Slope.Value*100, cover)
}

// What soil forms in a year in Europe, and the losses that past handbooks
// tolerated on deep ground, t/ha a year: Verheijen and others 2009, Earth-Science
// Reviews 94:23-38, and 5 tons an acre of United States practice, from memory.
const (
	formsLeast = 0.3
	formsMost  = 1.4
	severe     = 5.0
	tolerated  = 11.2
)

// formed sets a loss beside what soil forms in a year.
func formed(loss geodata.Estimate) string {
	switch v := loss.Value; {
	case v == 0:
		return "nothing is loosened under a sheet pegged down; the ground at its lower edge gets all the rain"
	case v <= formsLeast:
		return "no more than soil forms in a year"
	case v <= formsMost:
		return "about what soil forms in a year (0.3 to 1.4 tonnes a hectare in Europe)"
	case v <= severe:
		return "more than soil forms in a year (0.3 to 1.4 tonnes a hectare in Europe)"
	case v <= tolerated:
		return "several times what soil forms in a year (0.3 to 1.4 tonnes a hectare in Europe)"
	}
	return "many times what soil forms in a year: ground must not be left so over winter"
}
