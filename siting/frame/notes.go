package frame

import (
	"fmt"
	"math"
)

// heed adds the facts and notes that go with a bed that may be built.
func (d *Design) heed(c *Case, t *trial) {
	d.Channel = c.channelBecause()
	if t == nil {
		return
	}
	d.Advice = c.Slope > adviceSlope+tiny
	if d.Advice {
		d.note("the ground falls %s: build only with the advice of a competent person", overPercent(c.Slope, adviceSlope))
	}
	d.PegsUnreliable = c.Ground.Clay && c.Ground.Undrained < 10
	if d.PegsUnreliable {
		d.note("a finger sinks 25 mm into this ground: do not rely on pegs here before it is drained and has been left to firm")
	}
	d.noteBuilding(c, t)
	d.noteLife(c)
}

// channelBecause says why water is to be led round the bed, or "".
func (c *Case) channelBecause() string {
	switch {
	case c.SheetDepth > channelSheet+tiny:
		return "water runs on to the bed " + overSheet(c.SheetDepth, channelSheet) + " deep"
	case c.Flow > channelFlow+tiny:
		return fmt.Sprintf("%s litres of water a second run on to the bed (over %s litres a second)", past(c.Flow, channelFlow, 1), decimals(channelFlow, 1))
	case c.Above > channelAbove+tiny && c.Slope > channelSlope+tiny:
		return fmt.Sprintf("water comes off %s of slope above (over %s) on a fall of %s", metres(c.Above), metres(channelAbove), overPercent(c.Slope, channelSlope))
	}
	return ""
}

func (d *Design) note(format string, args ...any) {
	d.Notes = append(d.Notes, fmt.Sprintf(format, args...))
}

// noteBuilding says what keeps the frame as strong as it was reckoned.
func (d *Design) noteBuilding(c *Case, t *trial) {
	d.note("set pegs outside the boards, on their downhill side, and stop at any refusal: it may be a pipe or a cable")
	if t.sunken > 0 {
		if _, over := SunkenDepth(0, c.Roughness, c.Slope); over {
			d.note("the ground is rougher than a sunken edge of 100 mm can close: shape the lower edge of the boards to it")
		}
		if d.Boards.Taper > 0.005 {
			d.note("let the lower edge of the long boards follow the ground: left straight, it would be %s deeper at the higher end of a bay",
				millimetres(d.Boards.Taper))
		}
	}
	if deeper := d.endsDeeper(t); deeper > 0.005 {
		d.note("let the lower edge of the end boards follow the ground: left straight, it would be %s deeper at their uphill end", millimetres(deeper))
	}
	h := t.wedge.Low()
	head := c.winter().Water * h
	d.noteGaps(t.sunken, head, CreepDepth(c.Ground.Creep, head, d.Boards.Thickness))
	knee := Knee(0.4, 0.05, h, c.Material.FrictionAngle)
	d.note("kneel on a plank, 150 mm or more from a downhill board: a knee beside it pushes with about %s newtons, and the worst peg carries %s newtons in a wet winter",
		tens(knee*1000), tens(d.Pegs.Load*1000))
}

// endsDeeper is how much deeper than the edge is let in a board lying the short
// way would go at its uphill end: it is as high as the downhill board all along,
// and its top keeps to that of the board above.
func (d *Design) endsDeeper(t *trial) float64 {
	deeper := d.Boards.Downhill.Bought - d.Boards.Uphill.Bought
	if d.BaysAcross > 1 {
		return math.Max(deeper, t.wedge.gainAcross())
	}
	return deeper
}

// noteGaps asks for a way out for water. The pegs are made for water to half the
// height behind boards with gaps; full of water behind sealed boards is told
// and not made for.
func (d *Design) noteGaps(sunken, head, creep float64) {
	why := "the pegs are not made for a bed full of water"
	if creep > sunken {
		edge := "an edge let in by less than " + millimetres(creep)
		if creep > 2*greatestSunken {
			edge = "any edge that a spade can let in"
		}
		why += fmt.Sprintf(", and in this ground %s of water behind a sealed board washes soil out under %s", millimetres(head), edge)
	}
	d.note("leave gaps for water at the foot of the downhill boards, with fabric behind, and keep them open: %s", why)
}

// noteLife says where the boards or the pegs rot sooner than wished.
func (d *Design) noteLife(c *Case) {
	if life := d.Boards.Life.Value; life < c.LifeWished-tiny {
		d.note("boards %s thick of durability class %d last about %s years here; %s would last %s",
			millimetres(d.Boards.Thickness), c.Durability, decimals(life, 1),
			millimetres(math.Ceil(d.Boards.LastingThickness*1000)/1000), decimals(c.LifeWished, 0))
	}
	if life := d.Pegs.Life.Value; life < c.LifeWished-tiny {
		d.note("pegs %s square of durability class %d last about %s years in the ground: take a more durable timber for them, or plan to renew them",
			millimetres(c.PegSize), c.Durability, decimals(life, 1))
	}
}
