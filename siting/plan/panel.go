package plan

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// notForServices is printed on every plan, largest of the notes.
const notForServices = "Not for finding services: ask before you dig."

// frame draws the line round the drawn ground.
func (p *painter) frame() {
	p.add(panelLayer, corners(p.sheet.area), true, Style{Stroke: Black, Width: .25, Class: "frame"})
}

func corners(b orb.Bound) []orb.Point {
	return []orb.Point{b.Min, {b.Right(), b.Bottom()}, b.Max, {b.Left(), b.Top()}}
}

// cursor sets the panel's texts from the top down, in columns.
type cursor struct {
	p           *painter
	x, y, wide  float64
	top, bottom float64
}

// panel sets the title, the findings, the legend, the scale and the notes.
func (p *painter) panel(a *siting.Assessment) {
	b := p.sheet.panel
	columns := math.Max(1, math.Floor((b.Right()-b.Left())/60))
	c := &cursor{p: p, x: b.Left(), y: b.Bottom(), top: b.Bottom(), bottom: b.Top()}
	c.wide = (b.Right()-b.Left()-(columns-1)*gutter)/columns - .5
	c.titleBlock(a)
	c.scaleAndNorth(a.Frame)
	c.notes(a)
	c.legend()
	c.bedList()
}

// room moves to the next column when so many mm are not left in this one.
func (c *cursor) room(h float64) {
	if c.y+h > c.bottom && c.x+2*c.wide < c.p.sheet.panel.Right()+2*gutter {
		c.x += c.wide + gutter
		c.y = c.top
	}
}

// say writes a wrapped text at the left of the column.
func (c *cursor) say(t string, s TextStyle, indent float64) {
	s.Anchor = Start
	for _, line := range wrap(t, s.Size, s.Bold, c.wide-indent) {
		c.room(s.Size * 1.35)
		c.p.write(orb.Point{c.x + indent, c.y + s.Size*.6}, line, s)
		c.y += s.Size * 1.35
	}
}

func (c *cursor) titleBlock(a *siting.Assessment) {
	name := a.Name
	if name == "" {
		name = "Plot"
	}
	c.say(name, TextStyle{Size: 5, Bold: true, Class: "panel"}, 0)
	c.y++
	c.say(findings(a), TextStyle{Size: 2.6, Class: "panel"}, 0)
	c.y += 2
}

func (c *cursor) heading(t string) {
	c.room(9)
	c.say(t, TextStyle{Size: 2.8, Bold: true, Class: "panel"}, 0)
	c.y += .8
}

// legend lists what was drawn; when it is long, its lines move closer.
func (c *cursor) legend() {
	entries := c.p.entries()
	c.heading("What the signs mean")
	step := 4.5
	if left := c.bottom - c.y; float64(len(entries))*step > left && c.p.sheet.Width > c.p.sheet.Height {
		step = math.Max(3, left/float64(len(entries)))
	}
	for _, e := range entries {
		lines := wrap(e.text, 2.4, false, c.wide-14)
		c.room(step + float64(len(lines)-1)*2.8)
		e.sample(c.p, orb.Point{c.x + 6, c.y + step/2})
		for i, l := range lines {
			c.p.write(orb.Point{c.x + 14, c.y + step/2 + float64(i)*2.8}, l, TextStyle{Size: 2.4, Anchor: Start, Class: "legend"})
		}
		c.y += step + float64(len(lines)-1)*2.8
	}
	c.y += 1.5
}

// bedList says what did not fit beside the beds themselves.
func (c *cursor) bedList() {
	if len(c.p.listed) == 0 {
		return
	}
	c.heading("Beds")
	for i, b := range c.p.listed {
		if c.y+6 > c.bottom && c.x+2*c.wide > c.p.sheet.panel.Right() {
			c.say(fmt.Sprintf("and %d more: see the table of beds", len(c.p.listed)-i), TextStyle{Size: 2.3, Class: "panel"}, 0)
			return
		}
		c.say(strings.Join(c.p.said(b), ", "), TextStyle{Size: 2.3, Class: "panel"}, 0)
	}
}

// scaleAndNorth draws the scale bar, the scale in figures and the north mark.
func (c *cursor) scaleAndNorth(f siting.Frame) {
	c.room(22)
	c.scaleBar()
	c.north(orb.Point{c.x + c.wide - 9, c.y + 9}, f)
	c.y += 9
	c.say(fmt.Sprintf("Scale 1:%d on %s, printed at full size", c.p.sheet.Scale, c.p.sheet.Paper),
		TextStyle{Size: 2.6, Bold: true, Class: "panel"}, 0)
	c.y += 9
}

// scaleBar draws a bar of four parts, the first and third filled.
func (c *cursor) scaleBar() {
	unit, name := 1.0, "m"
	if c.p.units == geodata.FeetAndInch {
		unit, name = float64(geodata.Foot), "ft"
	}
	part := barPart(c.p.sheet, unit)
	step := c.p.sheet.length(part * unit)
	y := c.y + 4
	for i := range 4 {
		s := Style{Stroke: Black, Width: .2, Fill: Paper, Class: "scale-bar"}
		if i%2 == 0 {
			s.Fill = Black
		}
		left := c.x + 1 + float64(i)*step
		c.p.add(panelLayer, []orb.Point{{left, y}, {left + step, y}, {left + step, y + 1.4}, {left, y + 1.4}}, true, s)
	}
	for i := 0; i <= 4; i += 2 {
		t := fmt.Sprintf("%g", part*float64(i))
		if i == 4 {
			t += " " + name
		}
		c.p.write(orb.Point{c.x + 1 + float64(i)*step, y - 1.8}, t, TextStyle{Size: 2.3, Class: "panel"})
	}
}

// barPart is the largest round part whose four make a bar of up to 42 mm.
func barPart(s Sheet, unit float64) float64 {
	best := .1
	for _, p := range [...]float64{.1, .2, .25, .5, 1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200, 250} {
		if 4*s.length(p*unit) <= 42 {
			best = p
		}
	}
	return best
}

// north draws an arrow to the north that the frame names.
func (c *cursor) north(at orb.Point, f siting.Frame) {
	sin, cos := math.Sincos(-f.AxisBearing * math.Pi / 180)
	dir := orb.Point{sin, -cos}
	tip := orb.Point{at[0] + 6*dir[0], at[1] + 6*dir[1]}
	tail := orb.Point{at[0] - 6*dir[0], at[1] - 6*dir[1]}
	c.p.add(panelLayer, []orb.Point{tail, tip}, false, Style{Stroke: Black, Width: .4, Class: "north"})
	c.p.add(panelLayer, arrowHead(tip, dir, 4), true, Style{Fill: Black, Class: "north"})
	c.p.write(orb.Point{at[0] + 8*dir[0], at[1] + 8*dir[1]}, "N", TextStyle{Size: 3.2, Bold: true, Class: "panel"})
	c.p.write(orb.Point{at[0], at[1] + 8.6}, northName(f), TextStyle{Size: 2.3, Class: "panel"})
}

// northName says which north the arrow means.
func northName(f siting.Frame) string {
	if f.North == "" {
		return "the +y axis"
	}
	return f.North
}

func (c *cursor) notes(a *siting.Assessment) {
	small := TextStyle{Size: 2.4, Class: "panel"}
	c.say(notForServices, TextStyle{Size: 2.8, Bold: true, Class: "panel"}, 0)
	c.y += .6
	if a.Ground.Precision > 0 {
		c.say("Heights read to "+c.p.units.Small(a.Ground.Precision/1000)+" (one standard deviation).", small, 0)
	}
	if a.Ground.ContourInterval > 0 && len(a.Ground.Contours) > 0 {
		c.say("Contours every "+c.p.apart(a.Ground.ContourInterval)+".", small, 0)
	}
	c.say("Sizes are level distances.", small, 0)
	if c.p.made != "" {
		c.say(c.p.made, small, 0)
	}
	c.y += 2
}

// title names the drawing for those who cannot see it.
func title(a *siting.Assessment) string {
	name := a.Name
	if name == "" {
		name = "the plot"
	}
	return "Plan of " + name + ": " + findings(a)
}

// findings are the number of beds and the fall of the ground.
func findings(a *siting.Assessment) string {
	built := 0
	for _, b := range a.Beds {
		if b.Build != nil {
			built++
		}
	}
	t := fmt.Sprintf("%s, %d to build.", count(len(a.Beds), "bed"), built)
	if len(a.Beds) == 0 {
		t = "No bed placed."
	}
	return t + " Fall of the ground: " + strings.TrimSuffix(a.Ground.FallSaid, ".") + "."
}

func count(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// description says in words what each bed is and where water goes.
func description(a *siting.Assessment) string {
	var parts []string
	for _, b := range a.Beds {
		parts = append(parts, b.Name+": "+shortEdge(b)+".")
	}
	if v := a.Ground.RunoffBearing.Value; v != nil {
		parts = append(parts, fmt.Sprintf("Water leaves at %.0f degrees from %s.", *v, northName(a.Frame)))
	}
	return strings.Join(append(parts, notForServices), " ")
}
