package words

import (
	"fmt"
	"strings"

	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/frame"
)

// firmSaid says whether a class is firm, and if not, what makes it borderline.
func (w Words) firmSaid(b siting.Bed) string {
	if b.EdgeFirm {
		return "yes"
	}
	var why []string
	if !b.FallTold || len(b.EdgeRange) > 0 && b.EdgeRange[0] != b.EdgeRange[len(b.EdgeRange)-1] {
		why = append(why, rangeSaid(b.EdgeRange))
	}
	if s := b.Sensitivity; s != nil && !s.Firm {
		why = append(why, w.borderline(b, *s)...)
	}
	if len(why) == 0 {
		why = append(why, rangeSaid(b.EdgeRange))
	}
	return "no: " + strings.Join(why, "; ")
}

// borderline names the inputs that change the class at an end of their range,
// the one that does most first, together where they change it alike.
func (w Words) borderline(b siting.Bed, s siting.Sensitivity) []string {
	inputs := map[string][]string{}
	var order []string
	for _, e := range s.Effects {
		to := otherEdges(b.Edge, e)
		if to == "" {
			continue
		}
		if inputs[to] == nil {
			order = append(order, to)
		}
		name := "the " + e.Input
		if e.Input == s.Matters {
			inputs[to] = append([]string{name}, inputs[to]...)
		} else {
			inputs[to] = append(inputs[to], name)
		}
	}
	out := make([]string, len(order))
	for i, to := range order {
		out[i] = fmt.Sprintf("over the range of %s it may be %s", list(inputs[to]), to)
	}
	return out
}

// otherEdges are the edges at the ends of an input's range that are not the
// bed's own; empty for none.
func otherEdges(own frame.Class, e siting.Effect) string {
	switch {
	case e.EdgeLow != own && e.EdgeHigh != own && e.EdgeLow != e.EdgeHigh:
		return string(e.EdgeLow) + " or " + string(e.EdgeHigh)
	case e.EdgeLow != own:
		return string(e.EdgeLow)
	case e.EdgeHigh != own:
		return string(e.EdgeHigh)
	}
	return ""
}

// Sensitivity says what ground, water and fill do to a bed's frame, each over
// its range.
func (w Words) Sensitivity(b siting.Bed) []Item {
	s := b.Sensitivity
	if s == nil || b.Build == nil {
		return nil
	}
	out := []Item{{"Most depends on", s.Matters}}
	for _, e := range s.Effects {
		if t := w.effect(b, e); t != "" {
			out = append(out, Item{sentenceCase(e.Input) + ", " + w.Prose(e.Range), t})
		}
	}
	if s.Factor != nil {
		out = append(out, Item{"Over all of these", fmt.Sprintf("pegs would be needed %s deep; as given their factor of safety is %s", w.deepSpan(*s.Embedment), plain(*s.Factor))})
	}
	return out
}

// effect is what one input does; empty where it does nothing.
func (w Words) effect(b siting.Bed, e siting.Effect) string {
	var parts []string
	switch {
	case e.EdgeLow == e.EdgeHigh && e.EdgeLow == b.Edge:
	case e.EdgeLow == e.EdgeHigh:
		parts = append(parts, string(e.EdgeLow))
	default:
		parts = append(parts, string(e.EdgeLow)+" to "+string(e.EdgeHigh))
	}
	if e.Factor != nil && e.Factor.Low < e.Factor.High {
		parts = append(parts, fmt.Sprintf("pegs needed %s deep, factor of safety %s", w.deepSpan(*e.Depth), plain(*e.Factor)))
	}
	if e.Retained != nil && e.Retained.Low < e.Retained.High {
		parts = append(parts, w.span(*e.Retained)+" of compost against the lowest board")
	}
	if e.Factor == nil && e.Slip.Low < e.Slip.High {
		parts = append(parts, "factor of safety against slipping "+plain(e.Slip))
	}
	return strings.Join(parts, "; ")
}

// span is the range of a size in millimetres.
func (w Words) span(mm geodata.Estimate) string {
	low, high := w.Small(mm.Low), w.Small(mm.High)
	if low == high {
		return low
	}
	if unit, ok := sharedUnit(low, high); ok {
		low = strings.TrimSuffix(low, unit)
	}
	return low + " to " + high
}

// deepSpan is the range of a depth to be reached.
func (w Words) deepSpan(mm geodata.Estimate) string { return w.span(w.upward(mm)) }

// plain is the range of a figure without a unit.
func plain(e geodata.Estimate) string {
	low, high := fixed(e.Low, 1), fixed(e.High, 1)
	if low == high {
		return low
	}
	return low + " to " + high
}
