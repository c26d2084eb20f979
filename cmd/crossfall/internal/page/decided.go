package page

import (
	"fmt"

	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/siting"
	"crossfall/siting/takeoff"

	"github.com/paulmach/orb"
)

// assessmentView is an Assessment as the page shows it: the shapes to draw, and
// everything that is said in words, in the units asked for.
type assessmentView struct {
	Revision string        `json:"revision"`
	Units    geodata.Units `json:"units"`
	Name     string        `json:"name"`
	Decision []string      `json:"decision"`
	Shapes   shapesView    `json:"shapes"`
	Beds     []bedView     `json:"beds"`
	BedHeads []string      `json:"bed_heads"`
	Sections []section     `json:"sections"` // of the plot as a whole
	Cautions []cautionView `json:"cautions"`
	Totals   totalsView    `json:"totals"`
	// Steps is the setting-out sheet, its tasks to be ticked off.
	Steps []stepsView `json:"steps"`
	Storm string      `json:"storm"` // "not run", "current" or "out of date"
	// StormSaid tells what the state of the storm means for the edges.
	StormSaid string `json:"storm_said"`
}

// section is one heading with what stands under it.
type section struct {
	ID    string       `json:"id"`
	Title string       `json:"title"`
	Lines []string     `json:"lines,omitempty"`
	Items []words.Item `json:"items,omitempty"`
	Heads []string     `json:"heads,omitempty"`
	Rows  [][]string   `json:"rows,omitempty"`
}

// shapesView is what is drawn. Metres.
type shapesView struct {
	Frame    siting.Frame     `json:"frame"`
	Contours []siting.Contour `json:"contours"`
	Heights  []siting.Height  `json:"heights"`
	Hollows  []siting.Hollow  `json:"hollows"`
	Paths    []siting.Path    `json:"paths"`
	WithBeds []siting.Path    `json:"paths_with_beds"`
	Drains   []siting.Drain   `json:"drains"`
	Features []siting.Feature `json:"features"`
	Fall     geodata.Estimate `json:"fall_percent"`
	Told     bool             `json:"fall_determined"`
	Bearing  siting.Interval  `json:"runoff_bearing_degrees"`
}

// bedView is one bed.
type bedView struct {
	Name     string           `json:"name"`
	Centre   orb.Point        `json:"centre"`
	Length   float64          `json:"length_m"`
	Width    float64          `json:"width_m"`
	Bearing  float64          `json:"long_side_bearing_degrees"`
	Corners  []orb.Point      `json:"corners"`
	Pegs     []orb.Point      `json:"pegs"`
	Pinned   bool             `json:"pinned"`
	Edge     string           `json:"edge"`
	Firm     bool             `json:"edge_firm"`
	Row      []string         `json:"row"`
	Sections []section        `json:"sections"`
	Cautions []string         `json:"cautions"`
	Fall     geodata.Estimate `json:"fall_percent"`
}

// cautionView is one caution.
type cautionView struct {
	ID   string `json:"id"`
	Mark string `json:"mark"` // "STOP", "WARNING" or "NOTE"
	Text string `json:"text"`
	Tail string `json:"tail"`
	By   string `json:"acknowledged_by"`
}

// totalsView are the figures by which two layouts are laid side by side.
type totalsView struct {
	Beds    int              `json:"beds"`
	Compost geodata.Estimate `json:"compost_m3"`
	Boards  int              `json:"boards"`
	Pegs    int              `json:"pegs"`
	Said    []words.Item     `json:"said"`
}

// viewed puts an Assessment into the view.
func viewed(a *siting.Assessment, units geodata.Units, revision string) assessmentView {
	w := words.Words{Units: units}
	v := assessmentView{
		Revision: revision, Units: units, Name: a.Name, Decision: w.Decision(a), BedHeads: words.BedHeads(),
		Storm: a.Water.Storm, StormSaid: stormSaid(a), Beds: []bedView{}, Cautions: []cautionView{},
		Shapes: shapesView{
			Frame: a.Frame, Contours: a.Ground.Contours, Heights: a.Ground.Heights, Hollows: a.Ground.Hollows,
			Paths: a.Water.Paths, WithBeds: a.Water.PathsWithBeds, Drains: a.Water.Drains, Features: a.Features,
			Fall: a.Ground.FallPercent, Told: a.Ground.Determined, Bearing: a.Ground.RunoffBearing,
		},
		Totals: totalsOf(w, a), Sections: plotSections(w, a), Steps: stepsOf(w, a),
	}
	for _, b := range a.Beds {
		v.Beds = append(v.Beds, bedOf(w, a, b))
	}
	said := w.Cautions(a)
	by := map[string]string{}
	for _, c := range a.Cautions {
		by[c.ID] = c.AcknowledgedBy
	}
	for _, c := range said {
		v.Cautions = append(v.Cautions, cautionView{ID: c.ID, Mark: c.Mark, Text: c.Text, Tail: c.Tail, By: by[c.ID]})
	}
	return v
}

// stormSaid tells whether a played storm has a say in the edges.
func stormSaid(a *siting.Assessment) string {
	switch a.Water.Storm {
	case "current":
		return "The storm that was played is of this plot and these beds; where it asked for a graver edge, it was taken."
	case "out of date":
		return "The storm that was played was of other beds or another ground: it has no say, and edges come from the depth of sheet flow."
	}
	return "No storm has been played: edges come from the depth of sheet flow."
}

func bedOf(w words.Words, a *siting.Assessment, b siting.Bed) bedView {
	v := bedView{
		Name: b.Name, Centre: b.Centre, Length: b.Length, Width: b.Width, Bearing: b.LongSide, Pinned: b.Pinned,
		Edge: fmt.Sprint(b.Edge), Firm: b.EdgeFirm, Row: w.BedRow(b), Cautions: b.Cautions, Fall: b.FallPercent,
		Pegs: []orb.Point{}, Sections: bedSections(w, a, b),
	}
	for _, c := range b.Corners {
		v.Corners = append(v.Corners, orb.Point{c[0], c[1]})
	}
	if b.Pegs != nil && b.Build != nil {
		v.Pegs = b.Pegs.Positions
	}
	return v
}

// kept leaves out the sections with nothing in them.
func kept(all []section) []section {
	out := []section{}
	for _, s := range all {
		if len(s.Lines)+len(s.Items)+len(s.Rows) > 0 {
			out = append(out, s)
		}
	}
	return out
}

func bedSections(w words.Words, a *siting.Assessment, b siting.Bed) []section {
	var sun [][]string
	for _, row := range words.LightRows(a) {
		if row[0] == b.Name {
			sun = append(sun, row)
		}
	}
	all := []section{
		{ID: "edge", Title: "Edge", Items: w.Decided(b)},
		{ID: "ground", Title: "Ground and water", Items: w.Ground(b)},
		{ID: "build", Title: "What to build", Items: w.BuildList(b), Lines: nil},
		{ID: "edges", Title: "Ways to edge it", Items: w.EdgeReasons(b)},
		{ID: "depends", Title: "What it depends on", Items: w.Sensitivity(b)},
	}
	if rows := w.EdgeRows(b, currencyOf(a)); len(rows) > 0 {
		all[3].Heads, all[3].Rows = words.EdgeHeads(b), rows
	}
	if len(sun) > 0 {
		all = append(all, section{ID: "sun", Title: "Hours of direct sun", Heads: words.LightHeads(a), Rows: sun})
	}
	return kept(append(all, section{ID: "pegs", Title: "Pegs along the boards", Lines: w.PegPlaces(b)}))
}

func plotSections(w words.Words, a *siting.Assessment) []section {
	return kept([]section{
		{ID: "frame", Title: "How it was read", Lines: []string{w.Frame(a.Frame), w.AxisSaid(a.Frame)}},
		{ID: "uncertainty", Title: "How sure this is", Items: w.Uncertainty(a)},
		{ID: "suspects", Title: "Heights to read again", Items: w.Suspects(a.Ground)},
		{ID: "next", Title: "Heights worth taking", Lines: w.NextWalk(a.Ground)},
		{ID: "water", Title: "Winter water", Items: w.Water(a)},
		{ID: "advice", Title: "What to do about it", Items: w.AdviceItems(a)},
		{ID: "layout", Title: "The arrangement", Lines: layoutSaid(w, a)},
		{ID: "carrying", Title: "Ways to the beds", Heads: w.AccessHeads(), Rows: w.AccessRows(a), Items: w.AccessSaid(a), Lines: w.AccessNotes(a)},
		{ID: "covers", Title: "Covers against weeds", Heads: words.CoverHeads(), Rows: words.CoverRows(a)},
		{ID: "order", Title: "Order of work", Items: w.Work(a)},
		{ID: "buying", Title: "To buy and carry", Items: w.Buying(a.Quantities)},
		{ID: "cuts", Title: "Cutting the boards", Lines: cutLines(w, a.Quantities)},
		{ID: "sun", Title: "Hours of direct sun", Heads: words.LightHeads(a), Rows: words.LightRows(a), Items: w.LightSaid(a)},
		{ID: "assumed", Title: "Taken as usual, since nothing was said", Lines: assumed(w, a)},
	})
}

func cutLines(w words.Words, q takeoff.List) []string {
	var out []string
	for _, b := range q.Boards {
		if lines := w.Cuts(b); len(lines) > 0 {
			out = append(append(out, w.CutHead(b)), lines...)
		}
	}
	return out
}

func assumed(w words.Words, a *siting.Assessment) []string {
	var out []string
	for _, s := range a.Assumptions {
		out = append(out, w.Assumed(s))
	}
	return out
}

func totalsOf(w words.Words, a *siting.Assessment) totalsView {
	t := totalsView{Beds: len(a.Beds), Compost: a.Quantities.CompostOrder}
	for _, b := range a.Quantities.Boards {
		t.Boards += b.Count
	}
	for _, p := range a.Quantities.Pegs {
		t.Pegs += p.Count
	}
	t.Said = w.Totals(a)
	return t
}

// currencyOf is the money of the prices; empty where none was given.
func currencyOf(a *siting.Assessment) string {
	if a.Quantities.Cost == nil {
		return ""
	}
	return a.Quantities.Cost.Currency
}

// layoutSaid is how good the arrangement is beside the proved bound.
func layoutSaid(w words.Words, a *siting.Assessment) []string {
	var out []string
	if a.Layout != nil {
		for _, t := range a.Layout.Said {
			out = append(out, w.Prose(t))
		}
	}
	return out
}
