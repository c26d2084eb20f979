package siting

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"

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

// Keep takes over the return periods of an older storm of the same plot that were
// not played anew.
func (s *Storm) Keep(old *Storm) {
	if old == nil || old.Key != s.Key || old.Cell != s.Cell {
		return
	}
	for _, o := range old.Storms {
		if !slices.ContainsFunc(s.Storms, func(n StormPlayed) bool { return n.ReturnYears == o.ReturnYears && n.Runs >= o.Runs }) {
			s.Storms = slices.DeleteFunc(s.Storms, func(n StormPlayed) bool { return n.ReturnYears == o.ReturnYears })
			s.Storms = append(s.Storms, o)
		}
	}
	slices.SortFunc(s.Storms, func(a, b StormPlayed) int { return cmp.Compare(a.ReturnYears, b.ReturnYears) })
}
