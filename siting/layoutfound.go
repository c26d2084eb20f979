package siting

import (
	"context"
	"fmt"
	"math"

	"crossfall/siting/layout"
	"crossfall/terrain"
)

// Layout is how good the arrangement of the beds is. Marks are defaults of ours,
// and so are the scores made of them; the bound and the proofs hold for the
// places that were looked at.
type Layout struct {
	Wished int  `json:"beds_wished"` // beside those drawn by hand
	Most   bool `json:"most_that_fit_wished"`
	Placed int  `json:"beds_placed"`
	// MostBeds is a number that no layout of the places looked at can exceed.
	MostBeds int `json:"most_beds_possible"`
	// OutOfLine is how many beds a layout held that was not taken, since rows of one
	// direction hold nearly as many; 0: there was none.
	OutOfLine int    `json:"beds_out_of_line"`
	Method    string `json:"method"` // empty: none placed
	Rows      int    `json:"rows"`
	// RowBearing is that of the long sides, clockwise from Frame.North; null where
	// the beds lie in several directions.
	RowBearing *float64 `json:"row_bearing_degrees"`
	Score      float64  `json:"score"` // marks of the beds, less the cost of their rows
	Bound      float64  `json:"bound"` // no layout of as many beds scores more
	GapPercent float64  `json:"gap_percent"`
	Proved     bool     `json:"proved_best"`         // of all layouts of the places
	InKind     bool     `json:"proved_best_of_rows"` // of all in rows of one direction
	Places     int      `json:"places_looked_at"`
	Directions int      `json:"directions_looked_at"`
	Step       float64  `json:"step_along_row_m"`

	InTheWay []Hindrance `json:"in_the_way"` // empty where all wished beds were placed
	Said     []string    `json:"said"`
	// Drawn compares the beds drawn by hand with as many placed freely; null
	// where there is nothing to compare.
	Drawn *DrawnAgainst `json:"drawn_against_free"`
}

// Hindrance is what stops beds, and the share of the places looked at that it
// stops.
type Hindrance struct {
	Why   string  `json:"why"`
	Share float64 `json:"share_of_places"`
}

// layout tells of the layout found, and how beds drawn by hand compare; nil where
// there is neither.
func (j judge) layout(ctx context.Context, f found, decided []decision) (*Layout, error) {
	l := j.describeLayout(f)
	if l != nil && len(f.BestRows) > 0 {
		t, err := j.saidAgainstRows(ctx, f)
		if err != nil {
			return nil, err
		}
		l.Said = append(l.Said, t)
	}
	drawn, err := j.drawnAgainst(ctx, decided)
	if err != nil || drawn == nil {
		return l, err
	}
	if l == nil {
		l = &Layout{InTheWay: []Hindrance{}, Said: []string{}}
	}
	l.Drawn = drawn
	l.Said = append(l.Said, drawn.Said)
	return l, nil
}

// saidAgainstRows compares a layout of another kind with the best rows of one
// direction: by how many beds they hold, else by how often it is the better.
func (j judge) saidAgainstRows(ctx context.Context, f found) (string, error) {
	if more := f.Fits - len(f.BestRows); more > 0 {
		return fmt.Sprintf("the best rows of one direction hold %s less", counted(more, "bed")), nil
	}
	if j.fit.Uneven {
		return "whether rows of one direction would be as good cannot be told: not enough is known of the ground", nil
	}
	share, err := j.shareBetter(ctx, f.Beds, f.BestRows)
	if err != nil {
		return "", err
	}
	in := fmt.Sprintf("in %.0f of 100 simulated surfaces", math.Floor(100*share))
	if share >= clearShare {
		return "better than the best rows of one direction " + in, nil
	}
	return "no clear difference from the best rows of one direction (better " + in + ")", nil
}

// describeLayout tells of what the search found; nil where nothing was wished.
func (j judge) describeLayout(f found) *Layout {
	if f.places == nil {
		return nil
	}
	l := &Layout{
		Wished: max(0, f.Wished), Most: f.Wished < 0, Placed: f.Fits, MostBeds: f.MostBeds, OutOfLine: f.OutOfLine,
		Rows: f.Rows, Score: f.Score, Bound: f.Bound, GapPercent: 100 * f.Gap(),
		Proved: f.Proved(), InKind: f.Fits > 0 && f.Method == layout.InRows,
		Places: f.Places, Directions: f.Directions, Step: f.Step,
		InTheWay: []Hindrance{}, Said: []string{},
	}
	for _, h := range f.InTheWay {
		l.InTheWay = append(l.InTheWay, Hindrance{h.Why, h.Share})
	}
	if f.Fits > 0 {
		l.Method = string(f.Method)
		if f.InLine {
			v := terrain.Bearing(float64(f.Bearing) + j.plot.Frame.NorthTurn).Normal().Degrees()
			v = math.Mod(v, 180)
			l.RowBearing = &v
		}
	}
	l.say(f.Short)
	return l
}

// say puts it into sentences.
func (l *Layout) say(short string) {
	if short != "" {
		l.Said = append(l.Said, short)
	}
	if l.Placed == 0 {
		return
	}
	if l.Most {
		t := fmt.Sprintf("%s fit", counted(l.Placed, "bed"))
		if l.MostBeds > l.Placed {
			t += fmt.Sprintf("; no layout of the places looked at holds more than %d, as no ground can serve two beds and each takes its own and half of the path round it", l.MostBeds)
		} else {
			t += ", and no layout of the places looked at holds more"
		}
		l.Said = append(l.Said, t)
		if l.OutOfLine > 0 {
			l.Said = append(l.Said, fmt.Sprintf("%d were placed where beds may stand out of line; rows of one direction are kept unless one bed in %d more can be had", l.OutOfLine, layout.NeatBedsIn))
		}
	}
	switch layout.Method(l.Method) {
	case layout.InRows:
		l.Said = append(l.Said, fmt.Sprintf("%s in %s of one direction: best of its kind, proved", counted(l.Placed, "bed"), counted(l.Rows, "row")))
	case layout.InZones:
		l.Said = append(l.Said, counted(l.Placed, "bed")+" in two zones, each with rows of its own direction")
	default:
		l.Said = append(l.Said, counted(l.Placed, "bed")+" placed one by one, in any direction")
	}
	// Where the most are placed their number counts, and not which of the places.
	if l.Most && !l.Proved {
		return
	}
	looked := fmt.Sprintf("of %d places in %s", l.Places, counted(l.Directions, "direction"))
	if l.Proved || l.GapPercent < 0.01 {
		l.Said = append(l.Said, "no layout of as many beds "+looked+" has a higher score")
		return
	}
	l.Said = append(l.Said, fmt.Sprintf("no layout of as many beds %s could be more than %s %% better", looked, upTo(l.GapPercent)))
}

// counted is a number of things.
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// upTo is a percentage rounded up to a tenth, which an upper limit must be.
func upTo(percent float64) string { return fmt.Sprintf("%.1f", math.Ceil(percent*10-1e-9)/10) }
