package rain

import (
	"fmt"

	"crossfall/geodata"
)

// DesignMinutes is the duration that edges are judged by: a default of ours. On
// a plot water gathers within minutes, and shorter figures are rarely to hand.
const DesignMinutes = 15

// Short-duration figures are figures of the whole year, and here they fall on
// winter's wet ground; only a record of winter days holds winter storms.
const (
	allYear    = "all-year storm, wet-ground losses"
	winterOnly = "winter storm, wet-ground losses"
)

// Burst is design rain of one duration and one return period.
type Burst struct {
	Rate        geodata.Estimate // mm/h, mean over the burst
	Depth       geodata.Estimate // mm
	Minutes     float64
	ReturnYears float64 // once in so many years on average; of a daily record, once in so many winters
	Source      string  // what it was worked from and how, in words
	Said        string  // which storm on which ground
	Default     bool    // true when no figure for the place went in
	Notes       []string
	// Day is the depth of the greatest 24 hours, mm, of the same return period:
	// from the daily record where there is one of ten winters or more, whatever
	// the short durations come from.
	Day       geodata.Estimate
	DaySource string

	law   law
	given []string // the notes that hold for every duration
}

// law gives the depth of one return period in every duration from LeastMinutes
// to GreatestMinutes.
type law interface {
	at(minutes float64) reading
}

// reading is one depth of a law.
type reading struct {
	depth geodata.Estimate // mm
	how   string
	notes []string
}

// In is the burst of another duration and the same return period. Durations
// outside 5 to 5760 minutes, and a burst that DesignStorms did not make, are
// ErrRange.
func (b Burst) In(minutes float64) (Burst, error) {
	if b.law == nil || !(minutes >= LeastMinutes && minutes <= GreatestMinutes) {
		return Burst{}, minutesRefused(minutes)
	}
	return b.in(minutes), nil
}

func (b Burst) in(minutes float64) Burst {
	r := b.law.at(minutes)
	b.Minutes, b.Depth, b.Source = minutes, r.depth, r.how
	b.Rate = r.depth.Times(60 / minutes)
	b.Notes = append(b.given[:len(b.given):len(b.given)], r.notes...)
	return b
}

// DepthIn is the depth, mm, of the same return period in so many minutes, with
// the refusals of In.
func (b Burst) DepthIn(minutes float64) (geodata.Estimate, error) {
	other, err := b.In(minutes)
	return other.Depth, err
}

// note adds a note that holds for every duration.
func (b *Burst) note(format string, args ...any) {
	b.given = append(b.given, fmt.Sprintf(format, args...))
}

// widened spreads both ends of a band by a factor.
func widened(e geodata.Estimate, factor float64) geodata.Estimate {
	return geodata.Estimate{Value: e.Value, Low: e.Low / factor, High: e.High * factor}
}
