package siting

import (
	"fmt"
	"strings"

	"crossfall/siting/access"
	"crossfall/siting/takeoff"
)

// oneIn is a gradient in percent as builders say it.
func oneIn(percent float64) string {
	if percent < 0.5 {
		return "level"
	}
	return fmt.Sprintf("1 in %.0f", 100/percent)
}

// waySaid is the way to a bed in a sentence.
func waySaid(b *BedAccess, w *access.Way) string {
	t := fmt.Sprintf("by barrow, %.0f m from %s", b.Length, b.From)
	switch {
	case w.ByHand >= b.Length:
		t = fmt.Sprintf("on foot, %.0f m from %s: no barrow gets in", b.Length, b.From)
	case w.Means == access.OnFoot:
		t = fmt.Sprintf("by barrow for %.0f m from %s, then %.0f m on foot", b.Length-b.ByHand, b.From, b.ByHand)
	}
	if w.Means == access.OnFoot {
		t += " past " + strings.Join(b.InTheWay, " and ") + gapSaid(b)
	}
	if b.Climb.Value >= 0.05 {
		t += fmt.Sprintf(", %.1f m up", b.Climb.Value)
	}
	if b.Descent >= 0.05 {
		t += fmt.Sprintf(", %.1f m down", b.Descent)
	}
	if s := b.SteepestRise.Value; s >= 0.5 {
		t += fmt.Sprintf("; at its steepest %.1f %% (%s) over %.0f m", s, oneIn(s), access.Stretch)
	} else {
		t += "; it does not rise"
	}
	return t
}

func gapSaid(b *BedAccess) string {
	if b.Gap <= 0 {
		return ""
	}
	return fmt.Sprintf(", where there is %.2f m of room", b.Gap/1000)
}

// noWaySaid says what keeps anybody from a bed.
func noWaySaid(b *BedAccess, starts []access.Start) string {
	if len(starts) == 0 {
		return "nobody gets to it: there is no room for a barrow anywhere by the boundary"
	}
	t := "nobody gets to it from " + starts[0].Said
	if len(starts) > 1 {
		t += " or another gate or heap"
	}
	if len(b.InTheWay) == 0 {
		return t + ", which opens on no ground that one can walk"
	}
	return t + ": " + strings.Join(b.InTheWay, " and ") + inTheWay(b) + gapSaid(b)
}

func inTheWay(b *BedAccess) string {
	if len(b.InTheWay) == 1 {
		return " is in the way"
	}
	return " are in the way"
}

// Lengths of ramp between landings, m, by gradient (Approved Document M to the
// Building Regulations for England, table of ramp gradients).
var flights = []struct{ gradient, length float64 }{{1.0 / 20, 10}, {1.0 / 15, 5}, {1.0 / 12, 2}}

// wayAdvice is what may be done about a way that is steep, turns or leans.
func (j judge) wayAdvice(b *BedAccess, w *access.Way) []string {
	var out []string
	limit := j.access.Limits().Gradient
	up, down := w.Up.Gradient, w.Down.Gradient
	switch {
	case up > limit*access.Within && up <= access.ShortPull*access.Within && w.LongestOver <= access.ShortPullLength:
		out = append(out, fmt.Sprintf("a short pull at %s: take it with a run-up and rest above", oneIn(100*up)))
	case up > limit*access.Within:
		out = append(out, j.steepAdvice(b, w)...)
	case b.Hairpins > 0:
		out = append(out, fmt.Sprintf("the way goes to and fro and turns back %s: make each turn level, %.1f m or longer; straight on it would climb at %s, a push of about %.0f newtons",
			times(b.Hairpins), access.Landing, oneIn(b.StraightRise), j.straightPush(b)))
	}
	if down > limit*access.Within {
		out = append(out, fmt.Sprintf("it goes down at %s to the bed: hold the barrow back, with smaller loads", oneIn(100*down)))
	}
	if w.CrossFallOver >= 1 {
		out = append(out, fmt.Sprintf("over %.0f m the ground falls up to %.0f %% across the way: cut the path level there, up to %.0f mm over its width",
			w.CrossFallOver, b.CrossFall, 10*b.CrossFall*j.access.Limits().Width))
	}
	if w.Means == access.OnFoot {
		out = append(out, "leave a gap as wide as the barrow, or carry the rest in buckets")
	}
	return out
}

// straightPush is that of a full load straight on, on a lawn, N.
func (j judge) straightPush(b *BedAccess) float64 {
	mass := j.brief.Barrow + j.brief.Load/1000*j.brief.density().Value
	return takeoff.Push(mass, b.StraightRise/100, takeoff.RollingLawn)
}

// steepAdvice is for a way that had to be steeper than it should be.
func (j judge) steepAdvice(b *BedAccess, w *access.Way) []string {
	limit := j.access.Limits().Gradient
	out := []string{fmt.Sprintf("no gentler way was found: %.0f m of it are steeper than %s, up to %s", b.OverLimit, oneIn(100*limit), oneIn(100*w.Up.Gradient))}
	if litres, ok := takeoff.LighterLoad(j.brief.density().Value, w.Up.Gradient, j.brief.Barrow); ok && litres < j.brief.Load {
		out = append(out, fmt.Sprintf("loads of %.0f litres keep the push to the lower guideline there", litres))
	} else if !ok {
		out = append(out, "no useful barrow load keeps the push to the guideline there: carry in buckets up steps, or hoist")
	}
	length := 0.0
	for _, f := range flights {
		if f.gradient <= limit*1.001 {
			length = f.length
		}
	}
	if length > 0 {
		out = append(out, fmt.Sprintf("or cut a path to and fro: each metre climbed takes %.0f m at %s, with a level place of %.1f m each %.0f m and at each turn",
			1/limit, oneIn(100*limit), access.Landing, length))
	}
	return append(out, "or make steps for the steep part and carry by hand")
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

// carryingNotes are what the whole job of carrying rests on.
func (j judge) carryingNotes(beds []Bed) []string {
	var out []string
	limits := j.access.Limits()
	out = append(out, fmt.Sprintf("ways are looked for in squares of %.2f m and %d headings, for a barrow of %.2f m; gradients are taken over %.0f m",
		j.access.Cell(), j.access.Headings(), limits.Width, access.Stretch),
		"the push is for a full load on a lawn; its band runs from a firm path to wet, soft ground, and over the band of the rise")
	for _, s := range j.access.Starts() {
		if j.fit.Extrapolated(s.At) {
			out = append(out, fmt.Sprintf("the heights do not reach %s: what is climbed from there is not sure", s.Said))
		}
	}
	cut := 0
	for _, b := range beds {
		if b.Access != nil && b.Access.By == access.NoWay {
			cut++
		}
	}
	if cut > 0 {
		out = append(out, fmt.Sprintf("what is walked and climbed leaves out %s that nobody gets to", many(cut, "bed")))
	}
	return out
}

// assumedStart names the place that loads are taken to come from.
func (j judge) assumedStart() []Assumption {
	var out []Assumption
	for _, s := range j.access.Starts() {
		if s.Assumed {
			out = append(out, Assumption{
				What: "where compost is carried from", Value: fmt.Sprintf("%s (%s)", s.Said, placeSaid(s.At)),
				Set: "draw a gate or a heap in features.csv or plot.geojson",
			})
		}
	}
	return out
}

// outOfReach says which beds no barrow gets to.
func outOfReach(beds []Bed) []string {
	var out []string
	for _, b := range beds {
		if b.Access != nil && b.Access.By != access.ByBarrow {
			out = append(out, fmt.Sprintf("%s: %s", b.Name, b.Access.Said))
		}
	}
	return out
}
