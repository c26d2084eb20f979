package words

import (
	"fmt"
	"math"
	"strconv"

	"crossfall/siting"
	"crossfall/terrain/walk"
)

// WalkGround is what the ground is like so far.
func (w Words) WalkGround(s *walk.Survey) []Item {
	leaves := "cannot tell: the fall is too small beside its error"
	if b := s.Bearing; b != nil {
		leaves = wind(b.Value) + ", " + degrees(b.Value) + " (" + degrees(b.Low) + " to " + degrees(b.High) + "), from " + s.North
	}
	out := []Item{
		{"Fall", w.Prose(s.FallSaid)},
		{"Water leaves to the", leaves},
		{"Ground taken as", sentence(s.Surface + ": " + w.Prose(s.Why))},
		{"Heights", fmt.Sprintf("%d, about %s apart", len(s.Readings), w.Units.Length(s.Spacing))},
		{"Heights read to", w.rough(s.Precision) + ", one standard deviation"},
		{"Heights scatter about the ground by", w.rough(s.Spread)},
	}
	if s.Uneven {
		out = append(out, Item{"Uneven", "the ground changes more than the heights can follow; take more between them"})
	}
	for _, n := range s.Notes {
		out = append(out, Item{"Note", sentence(w.Prose(n))})
	}
	return out
}

// rough is an error of a height, mm: small ones to their tenths, large ones as a
// length.
func (w Words) rough(mm float64) string {
	if mm >= 1000 {
		return w.Units.Length(mm / 1000)
	}
	return w.Thin(mm)
}

// WalkHeads are the heads of the table of readings.
func WalkHeads() []string {
	return []string{"Name", "East", "North", "Height", "Off the ground", "Doubt"}
}

// WalkRow is one reading: how far it lies off the fitted ground, and how many
// standard errors that is.
func (w Words) WalkRow(r walk.Reading) []string {
	doubt := "cannot be checked"
	if r.Studentised != 0 {
		doubt = fixed(math.Abs(r.Studentised), 1) + " errors"
	}
	name := r.Name
	if r.Averaged > 1 {
		name += " (mean of " + strconv.Itoa(r.Averaged) + ")"
	}
	return []string{name, w.Units.Length(r.At[0]), w.Units.Length(r.At[1]), w.Units.Height(r.Height), w.Small(r.Residual), doubt}
}

// WalkSuspects are the readings to take again.
func (w Words) WalkSuspects(s *walk.Survey) []Item {
	var out []Item
	for _, x := range s.Suspects {
		out = append(out, Item{x.Name, sentence(w.Prose(x.Reason))})
	}
	return out
}

// WalkNext is where the staff should go next.
func (w Words) WalkNext(s *walk.Survey) string {
	if s.Gap == nil {
		return ""
	}
	return fmt.Sprintf("The ground is least known at %s, %s from the nearest reading: its height there is told to %s, one standard deviation.",
		w.Place(s.Gap.At), w.Units.Length(s.Gap.Away), w.rough(s.Gap.Sigma))
}

// NextWalk is the readings worth taking, in walking order.
func (w Words) NextWalk(g siting.Ground) []string {
	var out []string
	for _, n := range g.NextHeights {
		out = append(out, sentence(w.Prose(n.Said)))
	}
	return out
}
