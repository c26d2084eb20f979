package siting

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"crossfall/geodata"
)

// stormVersion changes with the reckoning, so that an older storm is out of date.
const stormVersion = 1

// What an Assessment says of the storm over the plot.
const (
	StormNotRun    = "not run"
	StormCurrent   = "current"
	StormOutOfDate = "out of date"
)

// StormKey is a hash of all of a plot that a storm over it rests on.
func StormKey(p *geodata.Plot) string {
	h := sha256.New()
	site, err := json.Marshal(p.Site)
	fmt.Fprintf(h, "%d %s %v %v %v", stormVersion, site, err, p.Boundary, p.BoundaryDrawn)
	// the places in the files say nothing
	for _, s := range p.Spots {
		s.Source = geodata.Pos{}
		fmt.Fprintf(h, "|%v", s)
	}
	for _, f := range p.Fixtures {
		f.Source = geodata.Pos{}
		fmt.Fprintf(h, "|%+v", f)
	}
	if p.Hillside != nil {
		fmt.Fprintf(h, "|%v", *p.Hillside)
	}
	r := p.Rain
	if r.Daily != nil {
		fmt.Fprintf(h, "|%v", *r.Daily)
		r.Daily = nil
	}
	if r.Intervals != nil {
		fmt.Fprintf(h, "|%v", *r.Intervals)
		r.Intervals = nil
	}
	r.Source = geodata.Pos{}
	fmt.Fprintf(h, "|%+v", r)
	return hex.EncodeToString(h.Sum(nil))
}

// State tells whether a storm kept beside a plot still holds for it; a nil storm
// was not run.
func (s *Storm) State(p *geodata.Plot) string {
	switch {
	case s == nil:
		return StormNotRun
	case s.Key != StormKey(p):
		return StormOutOfDate
	}
	return StormCurrent
}
