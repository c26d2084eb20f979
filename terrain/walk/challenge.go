package walk

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"crossfall/geodata"

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
	Expected float64 // height that the others say, m
	Error    float64 // standard error of the reading's departure, m
	Off      float64 // how far it is above (over 0) or below, m
	Slips    []Slip  // readings near it that would agree, likeliest first
	Said     string
}

// Slip is a likely slip in the booking and the height it would have been.
type Slip struct {
	Height float64 // m
	Said   string  // what was done, such as "two digits changed places"
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
	d.Slips = slips(height, expected, challengeAt*se)
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

// mostSlips is how many likely slips are offered.
const mostSlips = 3

// slips are the slips that would explain a height off by more than it should:
// those after which it lies within reach of what is expected, plain ones first.
func slips(height, expected, reach float64) []Slip {
	var out []Slip
	try := func(h float64, said string) {
		if len(out) == mostSlips || math.Abs(h-expected) > reach || math.Abs(h-height) < 1e-9 {
			return
		}
		for _, s := range out {
			if math.Abs(s.Height-h) < 1e-9 {
				return
			}
		}
		out = append(out, Slip{Height: h, Said: said})
	}
	for _, step := range []float64{1, 0.1, 0.5, 10} {
		try(height+step, fmt.Sprintf("%g m misread", step))
		try(height-step, fmt.Sprintf("%g m misread", step))
	}
	for _, h := range swapped(height) {
		try(h, "two digits changed places")
	}
	try(-height, "the sign")
	try(height*float64(geodata.Foot), "feet booked as metres")
	return out
}

// swapped are the heights with two neighbouring digits changed over, to the
// millimetre.
func swapped(height float64) []float64 {
	text := []byte(strconv.FormatFloat(height, 'f', 3, 64))
	var out []float64
	last := -1
	for i := range text {
		if text[i] < '0' || text[i] > '9' {
			continue
		}
		if last >= 0 && text[last] != text[i] {
			text[last], text[i] = text[i], text[last]
			if h, err := strconv.ParseFloat(string(text), 64); err == nil {
				out = append(out, h)
			}
			text[last], text[i] = text[i], text[last]
		}
		last = i
	}
	return out
}
