package plotfolder

import (
	"bytes"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/levelbook"
)

// levelsFile is the level book of a plot folder.
const levelsFile = "levels.csv"

// stations are reduced levels by the stations' names, for heights that give
// their place and leave their level to the book.
type stations struct {
	byName map[string]levelbook.StationLevel
	order  []string // as booked
	used   map[string]bool
}

// stationKey is a name as stations are compared: without case and outer blanks.
func stationKey(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// readLevels reduces a level book; nil without one that can be used.
func readLevels(f *file, site geodata.Site, c *collector) *stations {
	reduction, ok := reduce(f, site, c)
	if !ok {
		return nil
	}
	s := &stations{byName: map[string]levelbook.StationLevel{}, used: map[string]bool{}}
	for _, l := range reduction.Stations {
		key := stationKey(l.Station)
		s.byName[key] = l
		s.order = append(s.order, key)
	}
	return s
}

func reduce(f *file, site geodata.Site, c *collector) (levelbook.Reduction, bool) {
	before := c.problems
	book, faults := levelbook.ReadLevels(bytes.NewReader(f.data), f.name, bareUnit(site))
	c.addAll(faults)
	if c.problems > before {
		return levelbook.Reduction{}, false
	}
	reduction, found := book.Reduce(levelbook.Options{})
	c.addAll(found)
	return reduction, c.problems == before
}

// fill gives a height the level of its station.
func (s *stations) fill(spot *geodata.SpotHeight, pos geodata.Pos, c *collector) bool {
	l, known := s.byName[stationKey(spot.Name)]
	switch {
	case !known:
		c.problem(pos, "no-level", spot.Name, "it has no height, and "+levelsFile+" has no station of its name", "write its height, or book it in "+levelsFile)
		return false
	case l.Failed:
		c.problem(pos, "level-not-closed", spot.Name, "its level comes from a part of "+levelsFile+" that does not close",
			"level that part again; crossfall walk says where to look")
		return false
	case l.Inverted:
		c.problem(pos, "level-not-ground", spot.Name, "its level was read on an inverted staff: it is no ground", "take the row out")
		return false
	}
	spot.Height, spot.Sigma, spot.Readings = l.Level, l.Sigma, max(1, l.Readings)
	s.used[stationKey(spot.Name)] = true
	return true
}

// unused are the levels that no height has taken; nil without a book.
func (s *stations) unused() []levelbook.StationLevel {
	if s == nil {
		return nil
	}
	var out []levelbook.StationLevel
	for _, key := range s.order {
		if !s.used[key] {
			out = append(out, s.byName[key])
		}
	}
	return out
}

// take marks a station as one that has a place.
func (s *stations) take(name string) {
	if s != nil {
		s.used[stationKey(name)] = true
	}
}

// tellUnused names stations for which no place was given.
func (s *stations) tellUnused(c *collector) {
	var left []string
	for _, key := range s.order {
		if l := s.byName[key]; !s.used[key] && !l.Given && !l.Inverted {
			left = append(left, l.Station)
		}
	}
	if len(left) > 0 {
		c.warn(geodata.Pos{File: levelsFile}, "station-without-place", strings.Join(left, ", "),
			"these stations have a level and no place: they were not taken", "write each into heights.csv with its x and y and leave z empty, or tie it to the marks in ties.csv")
	}
}
