package export

import (
	"errors"
	"fmt"

	"crossfall/siting"
)

// pathProperties are those of a way of water.
type pathProperties struct {
	Kind     string   `json:"kind"`
	Name     string   `json:"name"`
	WithBeds bool     `json:"with_beds"` // with the framed beds built
	Length   float64  `json:"length_m"`
	Ends     string   `json:"ends"`
	Crosses  []string `json:"crosses"`
	TurnedBy []string `json:"turned_by"`
}

// drainProperties are those of a work that leads water away.
type drainProperties struct {
	Kind  string  `json:"kind"`
	Bed   string  `json:"bed,omitempty"`
	Said  string  `json:"said"`
	Depth float64 `json:"depth_mm"`
	Width float64 `json:"width_mm"`
}

// water appends where water runs, without the beds and with them, where it comes
// in and goes out, where it stays, and what leads it away.
func (c *collection) water(a *siting.Assessment) error {
	w := a.Water
	all := errors.Join(
		c.paths("runoff", w.Paths, false),
		c.paths("runoff-with-beds", w.PathsWithBeds, true),
		c.crossings("inflow", w.Inflow),
		c.crossings("outflow", w.Outflow),
	)
	for i, p := range w.Places {
		all = errors.Join(all, c.point(fmt.Sprintf("place-%d", i+1), p.At, saidProperties{p.What + " place", fmt.Sprintf("%s place %d", p.What, i+1), p.Said}))
	}
	for i, d := range w.Drains {
		p := drainProperties{d.Kind, d.Bed, d.Said, rounded(d.Depth, 0), rounded(d.Width, 0)}
		all = errors.Join(all, c.shape(fmt.Sprintf("drain-%d", i+1), d.Points, false, p))
	}
	return all
}

func (c *collection) paths(id string, paths []siting.Path, withBeds bool) error {
	for i, p := range paths {
		q := pathProperties{"runoff path", p.Name, withBeds, rounded(p.Length, 2), p.End, append([]string{}, p.Crosses...), append([]string{}, p.TurnedBy...)}
		if err := c.line(fmt.Sprintf("%s-%d", id, i+1), p.Points, q); err != nil {
			return err
		}
	}
	return nil
}

func (c *collection) crossings(kind string, crossings []siting.Crossing) error {
	for i, x := range crossings {
		var p properties
		p.add("kind", kind)
		p.add("side", x.Side)
		p.number("width_m", x.Width, 2)
		p.band("draining_area_m2", &x.Area, 0)
		if err := c.point(fmt.Sprintf("%s-%d", kind, i+1), x.At, p); err != nil {
			return err
		}
	}
	return nil
}
