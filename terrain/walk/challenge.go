package walk

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/terrain/surface"

	"github.com/paulmach/orb"
)

// challengeAt is how many standard errors a new reading may lie off what the
// others say before it is doubted: about one honest reading in 500; a default
// of ours.
const challengeAt = 3.1

// fewestToDoubt is the number of readings from which a new one can be doubted:
// a plane through three leaves nothing over to judge by.
const fewestToDoubt = 4

// Doubt is what speaks against a new reading.
type Doubt struct {
	Expected float64        // height that the others say, m
	Error    float64        // standard error of the reading's departure, m
	Off      float64        // how far it is above (over 0) or below, m
	Slips    []surface.Slip // readings near it that would agree, likeliest first
	Said     string
}

// Challenge judges a new height against the readings so far, before it is
// booked. It is nil when nothing speaks against it, or when too few others are
// there, or the place lies too far off them, to say.
func Challenge(p *geodata.Plot, at orb.Point, height float64) *Doubt {
	if len(p.Spots) < fewestToDoubt {
		return nil
	}
	fit, err := FitPlot(p)
	if err != nil || fit.Uneven || fit.Extrapolated(at) {
		return nil
	}
	expected, ok := fit.HeightAt(at)
	if !ok {
		return nil
	}
	se := math.Sqrt(math.Max(0, fit.HeightCovariance(at, at)) + fit.Sigma*fit.Sigma)
	d := &Doubt{Expected: expected, Error: se, Off: height - expected}
	if math.Abs(d.Off) <= challengeAt*se {
		return nil
	}
	d.Slips = surface.Slips(height, expected, challengeAt*se)
	d.Said = d.words(height)
	return d
}

// words puts a doubt as a question.
func (d *Doubt) words(height float64) string {
	side := "above"
	if d.Off < 0 {
		side = "below"
	}
	said := fmt.Sprintf("%.2f m %s what its neighbours say (%.2f m)", math.Abs(d.Off), side, d.Expected)
	if len(d.Slips) == 0 {
		return said + fmt.Sprintf(": is it %.3f?", height)
	}
	var near []string
	for _, s := range d.Slips {
		near = append(near, fmt.Sprintf("%.3f (%s)", s.Height, s.Said))
	}
	return said + fmt.Sprintf(": %.3f, or %s?", height, strings.Join(near, ", or "))
}
