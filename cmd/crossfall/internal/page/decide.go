package page

import (
	"context"
	"fmt"
	"math"
	"net/http"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// stageView is told while an assessment is made.
type stageView struct {
	Stage string `json:"stage"`
	Done  int64  `json:"done"`
	Total int64  `json:"total"`
}

// plannedReadings is how many heights worth taking are planned as one walk.
const plannedReadings = 3

// streamAssessment makes the assessment of the plot as its files say and tells of
// each stage. Closing the connection stops it.
func (s *Server) streamAssessment(w http.ResponseWriter, r *http.Request) {
	plot, revision, err := s.garden.read()
	if err == nil {
		_, err = unitsAsked(r, "")
	}
	e := newEvents(w)
	if err != nil {
		_ = e.send("problem", problemOf(err))
		return
	}
	units, _ := unitsAsked(r, geodata.Units(plot.Site.Units))
	a, err := siting.Assess(r.Context(), plot, siting.Options{
		Memory: &s.garden.memory, Units: units, Readings: plannedReadings, Storm: s.opt.Kept(s.garden.folder()),
		Progress: func(stage string, done, total int64) { _ = e.send("stage", stageView{stage, done, total}) },
	})
	if err != nil {
		_ = e.send("problem", problemOf(err))
		return
	}
	_ = e.send("assessment", viewed(a, units, revision))
}

// problemOf is an error as it stands in an event.
func problemOf(err error) problem {
	return problem{Code: "faults", Message: "the plot cannot be assessed yet", Faults: told(faultsOf(err))}
}

// keyedBed is a bed at a place that is being tried. Lengths are metres, the
// bearing of the long side degrees clockwise from north.
type keyedBed struct {
	Name    string    `json:"name"`
	Centre  orb.Point `json:"centre"`
	Length  float64   `json:"length_m"`
	Width   float64   `json:"width_m"`
	Bearing float64   `json:"bearing_degrees"`
	Pinned  bool      `json:"pinned"`
}

// trial is a layout that is tried without being written anywhere.
type trial struct {
	Beds []keyedBed `json:"beds"`
	// Arrange lets all beds that are not pinned be placed anew, so many in all.
	Arrange bool `json:"arrange"`
	Count   int  `json:"count"`
	// Most places as many as fit, in place of a count.
	Most  bool          `json:"most"`
	Units geodata.Units `json:"units"`
}

func (s *Server) try(w http.ResponseWriter, r *http.Request) {
	var t trial
	if err := take(r, &t); err != nil {
		fail(w, err)
		return
	}
	plot, revision, err := s.garden.read()
	if err != nil {
		fail(w, err)
		return
	}
	tried, err := t.on(plot)
	if err != nil {
		fail(w, err)
		return
	}
	a, err := siting.Assess(r.Context(), tried, siting.Options{Memory: &s.garden.memory, Units: t.Units, Storm: s.opt.Kept(s.garden.folder())})
	if err != nil {
		fail(w, err)
		return
	}
	units := t.Units
	if units == "" {
		units = geodata.Units(plot.Site.Units)
	}
	write(w, http.StatusOK, viewed(a, units, revision))
}

// on is the plot with the beds of a trial in place of those that are drawn.
func (t trial) on(plot *geodata.Plot) (*geodata.Plot, error) {
	if len(t.Beds) > geodata.MostBeds || t.Count > geodata.MostBeds {
		return nil, fieldError{"beds", fmt.Sprintf("%d beds at most", geodata.MostBeds)}
	}
	tried := *plot
	tried.Fixtures = nil
	for _, f := range plot.Fixtures {
		if f.Kind != geodata.BedKind {
			tried.Fixtures = append(tried.Fixtures, f)
		}
	}
	count := 0
	for i, b := range t.Beds {
		if t.Arrange && !b.Pinned {
			continue
		}
		fixture, err := b.fixture(plot.Frame, fmt.Sprintf("beds.%d", i))
		if err != nil {
			return nil, err
		}
		tried.Fixtures = append(tried.Fixtures, fixture)
		count++
	}
	if t.Arrange {
		count = max(count, t.Count)
	}
	tried.Site.Beds.Count, tried.Site.Beds.Most = &count, false
	if t.Arrange && t.Most {
		tried.Site.Beds.Count, tried.Site.Beds.Most = nil, true
	}
	return &tried, nil
}

// Sizes of beds that may be tried, m.
const leastBed, greatestBed = 0.2, 60.0

// fixture is the bed as if it were drawn, which is how the engine keeps it in its
// place.
func (b keyedBed) fixture(frame geodata.Frame, field string) (geodata.Fixture, error) {
	for _, v := range []float64{b.Centre[0], b.Centre[1], b.Bearing} {
		if math.IsNaN(v) || math.Abs(v) > farthest {
			return geodata.Fixture{}, fieldError{field, "that is no place in a garden"}
		}
	}
	if !(b.Length >= leastBed && b.Length <= greatestBed && b.Width >= leastBed && b.Width <= greatestBed) {
		return geodata.Fixture{}, fieldError{field, "the sides of a bed are between 0.2 and 60 m"}
	}
	turn := b.Bearing*math.Pi/180 - frame.NorthTurn // from the +y axis
	along := orb.Point{math.Sin(turn) * b.Length / 2, math.Cos(turn) * b.Length / 2}
	across := orb.Point{math.Cos(turn) * b.Width / 2, -math.Sin(turn) * b.Width / 2}
	corner := func(l, a float64) orb.Point {
		return orb.Point{b.Centre[0] + l*along[0] + a*across[0], b.Centre[1] + l*along[1] + a*across[1]}
	}
	ring := orb.Ring{corner(-1, -1), corner(-1, 1), corner(1, 1), corner(1, -1), corner(-1, -1)}
	return geodata.Fixture{Kind: geodata.BedKind, Name: oneLine(b.Name), Shape: orb.Polygon{ring}, Pinned: true}, nil
}

// keyedBeds are the beds to be drawn in the plot's files.
type keyedBeds struct {
	Revision string     `json:"revision"`
	Beds     []keyedBed `json:"beds"`
}

// postBeds writes the beds into the plot's files, all of them pinned, and takes
// out those that are drawn there and not among them.
func (s *Server) postBeds(w http.ResponseWriter, r *http.Request) {
	var k keyedBeds
	if err := take(r, &k); err != nil {
		fail(w, err)
		return
	}
	if len(k.Beds) > geodata.MostBeds {
		fail(w, fieldError{"beds", fmt.Sprintf("%d beds at most", geodata.MostBeds)})
		return
	}
	s.answerChanged(w, func(dir string) error {
		plot, err := plotfolder.ReadSoFar(dir)
		if err != nil {
			return err
		}
		edits, err := bedEdits(k.Beds, plot)
		if err != nil {
			return err
		}
		return plotfolder.EditFeatures(dir, k.Revision, edits)
	})
}

func bedEdits(beds []keyedBed, plot *geodata.Plot) ([]plotfolder.FeatureEdit, error) {
	var edits []plotfolder.FeatureEdit
	stays := map[string]bool{}
	for i, b := range beds {
		f, err := b.fixture(plot.Frame, fmt.Sprintf("beds.%d", i))
		if err != nil {
			return nil, err
		}
		if f.Name == "" || stays[f.Name] {
			return nil, fieldError{fmt.Sprintf("beds.%d", i), "each bed needs a name of its own"}
		}
		stays[f.Name] = true
		edits = append(edits, plotfolder.FeatureEdit{Kind: geodata.BedKind, Name: f.Name, Put: &f})
	}
	for _, f := range plot.OfKind(geodata.BedKind) {
		if !stays[f.Name] {
			edits = append(edits, plotfolder.FeatureEdit{Kind: geodata.BedKind, Name: f.Name})
		}
	}
	return edits, nil
}

// assessed is the assessment of the plot as its files say, with contours round in
// units; where they are empty, in those of the plot.
func (s *Server) assessed(ctx context.Context, units geodata.Units) (*siting.Assessment, *geodata.Plot, error) {
	plot, _, err := s.garden.read()
	if err != nil {
		return nil, nil, err
	}
	a, err := siting.Assess(ctx, plot, siting.Options{Memory: &s.garden.memory, Units: units, Readings: plannedReadings, Storm: s.opt.Kept(s.garden.folder())})
	return a, plot, err
}
