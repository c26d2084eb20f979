package surface

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"crossfall/geodata"
)

// Slip is a likely slip in the booking and the height it would have been.
type Slip struct {
	Height float64 // m
	Said   string  // what was done, such as "two digits changed places"
}

// mostSlips is how many likely slips are offered.
const mostSlips = 3

// withinReach is how many standard errors off what the others say a mended
// height may still lie; a default of ours.
const withinReach = 3

// Slips are the slips that would explain a height: those after which it lies
// within reach of what is expected, all metres, plain ones first; at most 3.
func Slips(height, expected, reach float64) []Slip {
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

// nameSlips says of each suspect how it may have been mis-booked: one of Slips,
// or that its height and another suspect's stand in each other's row.
func (f *fitting) nameSlips() {
	suspects := f.fit.Suspects
	for k := range suspects {
		s := &suspects[k]
		height := f.base + f.z[s.Index]
		expected, reach := height-s.Off, withinReach*s.sigma
		for l, o := range suspects {
			other := f.base + f.z[o.Index]
			if l != k && math.Abs(other-expected) <= reach && math.Abs(height-(other-o.Off)) <= withinReach*o.sigma {
				s.Slips = append(s.Slips, Slip{Height: other, Said: "the rows of it and " + called(o.Name, o.Index) + " changed places"})
				break
			}
		}
		if s.Slips == nil {
			s.Slips = Slips(height, expected, reach)
		}
		if len(s.Slips) == 0 {
			continue
		}
		var near []string
		for _, p := range s.Slips {
			near = append(near, fmt.Sprintf("%.3f m (%s)", p.Height, p.Said))
		}
		s.Reason = strings.TrimSuffix(s.Reason, readAgain) + "; it would fit as " + strings.Join(near, ", or as ") + readAgain
	}
}
