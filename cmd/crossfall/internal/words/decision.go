package words

import (
	"fmt"
	"math"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/caution"
	"crossfall/siting/frame"

	"github.com/paulmach/orb"
)

// Frame is the first line of every output: what the coordinates are, and how
// wide and deep the plot is.
func (w Words) Frame(f siting.Frame) string {
	read := f.Coordinates
	if read == "local metres" && w.Units == geodata.FeetAndInch {
		read = "local coordinates" // they may have been written in either unit
	}
	t := fmt.Sprintf("Read as %s: %s wide (east to west), %s deep (south to north), %s",
		read, w.Units.Length(f.Width), w.Units.Length(f.Depth), w.Units.Area(f.Area))
	if !f.BoundaryDrawn {
		t += " inside the outline of the heights, as no boundary was drawn"
	}
	return t + "; bearings from " + northName(f) + "."
}

// AxisSaid says which way the plot's y axis points, and where its origin is.
func (w Words) AxisSaid(f siting.Frame) string {
	t := ""
	if d := fixed(f.AxisBearing, 0); d != "0" {
		t = "The y axis points " + d + "° clockwise from " + northName(f) + "."
	}
	if f.Origin != nil {
		t += fmt.Sprintf(" Origin: longitude %s°, latitude %s°.", fixed(f.Origin[0], 6), fixed(f.Origin[1], 6))
	}
	return strings.TrimSpace(t)
}

func northName(f siting.Frame) string {
	if f.North == "" {
		return "the +y axis"
	}
	return f.North
}

// Decision is what to do, in a few sentences.
func (w Words) Decision(a *siting.Assessment) []string {
	out := []string{classesSaid(a.Beds)}
	out = append(out, sentence("fall of the ground: "+w.Prose(a.Ground.FallSaid))+" "+w.runoffSaid(a))
	if n := Stops(a); n > 0 {
		out = append(out, fmt.Sprintf("STOP: %s to settle before any digging; see the cautions.", count(n, "caution")))
	}
	if t := notFirm(a.Beds); t != "" {
		out = append(out, t)
	}
	if t := cutOff(a.Beds); t != "" {
		out = append(out, t)
	}
	if t := w.buySaid(a); t != "" {
		out = append(out, t)
	}
	if t := buildBefore(a); t != "" {
		out = append(out, t)
	}
	if a.Ground.NextHeight != "" {
		out = append(out, "Next reading: "+w.NextReading(a.Ground))
	}
	return out
}

// classesSaid groups the beds by class, in the order in which they come.
func classesSaid(beds []siting.Bed) string {
	if len(beds) == 0 {
		return "No bed was placed."
	}
	var order []frame.Class
	names := map[frame.Class][]string{}
	for _, b := range beds {
		if len(names[b.Edge]) == 0 {
			order = append(order, b.Edge)
		}
		names[b.Edge] = append(names[b.Edge], b.Name)
	}
	var parts []string
	for _, c := range order {
		who := list(names[c])
		if len(names[c]) > 6 {
			who = count(len(names[c]), "bed")
		}
		parts = append(parts, who+": "+fmt.Sprint(c))
	}
	return count(len(beds), "bed") + ". " + strings.Join(parts, "; ") + "."
}

// notFirm names the beds whose edge could be another: those whose fall cannot
// be told, which are decided at its upper limit, and those decided at the fall
// as measured though its band reaches into another class.
func notFirm(beds []siting.Bed) string {
	var untold, near, borderline []string
	for _, b := range beds {
		switch {
		case b.EdgeFirm:
		case b.FallTold && len(b.EdgeRange) > 0 && b.EdgeRange[0] == b.EdgeRange[len(b.EdgeRange)-1]:
			borderline = append(borderline, b.Name)
		case b.FallTold:
			near = append(near, b.Name)
		default:
			untold = append(untold, b.Name)
		}
	}
	var out []string
	if len(untold) > 0 {
		out = append(out, "Not firm, decided at the unfavourable limit: "+list(untold)+".")
	}
	if len(near) > 0 {
		out = append(out, "Not firm, decided at the fall as measured, whose band reaches another edge: "+list(near)+".")
	}
	if len(borderline) > 0 {
		out = append(out, "Borderline, as the ground, the water or the depth of compost may make the edge another: "+list(borderline)+".")
	}
	return strings.Join(out, " ")
}

// runoffSaid is the way the water leaves, or why it cannot be told.
func (w Words) runoffSaid(a *siting.Assessment) string {
	t := w.Bearing(a.Ground.RunoffBearing)
	if a.Ground.RunoffBearing.Value == nil {
		return sentence("which way the water leaves: " + t)
	}
	return "Water leaves to the " + t + ", from " + northName(a.Frame) + "."
}

// Bearing is a direction with its band, or the reason why there is none.
func (w Words) Bearing(i siting.Interval) string {
	if i.Value == nil {
		if i.Reason == "" {
			return "cannot tell"
		}
		return w.Prose(i.Reason)
	}
	t := wind(*i.Value) + ", " + degrees(*i.Value)
	if i.Low != nil && i.High != nil {
		t += " (" + degrees(*i.Low) + " to " + degrees(*i.High) + ")"
	}
	return t
}

// degrees is a bearing to the whole degree, 0 to 359.
func degrees(d float64) string {
	return fixed(math.Mod(math.Mod(math.Round(d), 360)+360, 360), 0) + "°"
}

var winds = [16]string{
	"north", "north-north-east", "north-east", "east-north-east", "east", "east-south-east", "south-east", "south-south-east",
	"south", "south-south-west", "south-west", "west-south-west", "west", "west-north-west", "north-west", "north-north-west",
}

// wind is the nearest of sixteen compass words.
func wind(degrees float64) string {
	turn := math.Mod(math.Mod(degrees, 360)+360, 360)
	return winds[int(math.Round(turn/22.5))%16]
}

func (w Words) buySaid(a *siting.Assessment) string {
	q := a.Quantities
	if q.CompostOrder.Value <= 0 {
		return ""
	}
	parts := []string{of(q.CompostOrder, w.Units.Volume) + " of compost"}
	boards, pegs := 0, 0
	for _, b := range q.Boards {
		boards += b.Count
	}
	for _, p := range q.Pegs {
		pegs += p.Count
	}
	if boards > 0 {
		parts = append(parts, count(boards, "board"))
	}
	if pegs > 0 {
		parts = append(parts, count(pegs, "peg"))
	}
	return "Buy " + list(parts) + "."
}

// Stops counts the cautions that take work away.
func Stops(a *siting.Assessment) int {
	n := 0
	for _, c := range a.Cautions {
		if c.Severity == caution.Stop {
			n++
		}
	}
	return n
}

// Place is a point of the plot in words.
func (w Words) Place(p orb.Point) string {
	return w.Units.Length(p[0]) + " east, " + w.Units.Length(p[1]) + " north"
}
