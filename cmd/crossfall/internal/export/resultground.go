package export

import (
	"errors"
	"fmt"

	"crossfall/geodata"
	"crossfall/siting"
)

// heightProperties are those of a line or a point with a height.
type heightProperties struct {
	Kind   string  `json:"kind"`
	Name   string  `json:"name,omitempty"`
	Height float64 `json:"height_m"`
	// Feet is the height of a contour that is round in feet.
	Feet *float64 `json:"height_ft,omitempty"`
	// Residual is what the fitted ground leaves of a reading.
	Residual *float64 `json:"residual_mm,omitempty"`
}

// hollowProperties are those of a hollow.
type hollowProperties struct {
	Kind   string  `json:"kind"`
	Name   string  `json:"name"`
	Depth  float64 `json:"depth_mm"`
	Area   float64 `json:"area_m2"`
	Volume float64 `json:"volume_m3"`
}

// saidProperties are those of a feature that is told in words.
type saidProperties struct {
	Kind string `json:"kind"`
	Name string `json:"name"`
	Said string `json:"said"`
}

// ground appends contours, hollows, the heights read, and those to read next.
func (c *collection) ground(g siting.Ground) error {
	var all error
	for i, l := range g.Contours {
		points := l.Points
		if l.Closed && len(points) > 0 && points[0] != points[len(points)-1] {
			points = append(points[:len(points):len(points)], points[0])
		}
		p := heightProperties{Kind: "contour", Height: rounded(l.Level, metreDecimals)}
		if g.ContourUnits == geodata.FeetAndInch {
			feet := rounded(l.Level/float64(geodata.Foot), 2)
			p.Feet = &feet
		}
		all = errors.Join(all, c.line(fmt.Sprintf("contour-%d", i+1), points, p))
	}
	for i, h := range g.Hollows {
		p := hollowProperties{"hollow", fmt.Sprintf("hollow %d", i+1), rounded(h.Depth, 0), rounded(h.Area, 2), rounded(h.Volume, 3)}
		outline := h.Outline
		if len(outline) < 3 {
			outline = append(outline[:0:0], h.At)
		}
		all = errors.Join(all, c.shape(fmt.Sprintf("hollow-%d", i+1), outline, true, p))
	}
	for i, h := range g.Heights {
		residual := rounded(h.Residual, 1)
		p := heightProperties{Kind: "spot height", Name: h.Name, Height: rounded(h.Height, metreDecimals), Residual: &residual}
		all = errors.Join(all, c.point(fmt.Sprintf("height-%d", i+1), h.At, p))
	}
	for i, h := range g.NextHeights {
		p := saidProperties{"next height", fmt.Sprintf("next height %d", i+1), h.Said}
		all = errors.Join(all, c.point(fmt.Sprintf("next-height-%d", i+1), h.At, p))
	}
	return all
}
