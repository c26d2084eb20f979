package siting

import (
	"math"

	"crossfall/geodata"
	"crossfall/siting/frame"
)

// wedgeAt is the chosen design's wedge on plane ground of another fall, its
// depth and bays kept: what the same bed holds at the ends of the band.
func (d decision) wedgeAt(across, along float64) frame.Wedge {
	w := frame.Wedge{
		Length: d.bed.Length, Width: d.bed.Width, Fill: d.chosen.Fill, Across: across, Along: along,
		BaysAcross: max(1, d.chosen.BaysAcross), BaysAlong: max(1, d.chosen.BaysAlong), Bend: d.bend,
	}
	w.TopAcross, w.TopAlong = frame.TopSlopes(across, along)
	return w
}

// overFall is a figure of that wedge over the band of the fall. The value is
// taken at the fall that decided.
func (d decision) overFall(figure func(frame.Wedge) float64) geodata.Estimate {
	g := d.ground
	value := figure(d.wedgeAt(g.Across.Value, g.Along.Value))
	if d.open {
		value = figure(d.wedgeAt(g.Across.High, g.Along.High))
	}
	low, high := figure(d.wedgeAt(g.Across.Low, g.Along.Low)), figure(d.wedgeAt(g.Across.High, g.Along.High))
	return geodata.Estimate{Value: value, Low: math.Min(low, value), High: math.Max(high, value)}
}

// retained is the depth of compost against the lowest board, m.
func (d decision) retained() geodata.Estimate { return d.overFall(frame.Wedge.Low) }

// boardUphill and boardDownhill are heights needed, m.
func (d decision) boardUphill() geodata.Estimate {
	return d.overFall(func(w frame.Wedge) float64 { return w.BoardUphill(d.chosen.Boards.Sunken) })
}

func (d decision) boardDownhill() geodata.Estimate {
	return d.overFall(func(w frame.Wedge) float64 { return w.BoardDownhill(d.chosen.Boards.Sunken) })
}

// compost is the laid volume, m3: the sum over the fitted ground, with the band
// that the fall's band gives on plane ground.
func (d decision) compost() geodata.Estimate {
	band := d.overFall(frame.Wedge.Volume)
	v := d.fill.Volume
	at := d.wedgeAt(d.ground.Across.Value, d.ground.Along.Value).Volume()
	return geodata.Estimate{
		Value: v,
		Low:   math.Min(v, math.Max(0, v+band.Low-at)),
		High:  math.Max(v, v+band.High-at),
	}
}
