package siting

import (
	"context"
	"fmt"
	"math"
	"time"

	"crossfall/geodata"
	"crossfall/siting/rain"
	"crossfall/siting/soil"
	"crossfall/terrain/stormflow"
	"crossfall/terrain/walk"

	"github.com/paulmach/orb"
)

// StormOptions steer RunStorm. The zero value plays the storm met once in 10
// years.
type StormOptions struct {
	// Years are the return periods: of 2, 10 and 30. None: 10.
	Years []float64
	// Minutes is how long the burst lasts, 30 to 60. 0: 30.
	Minutes float64
	// MostCells is the greatest number of cells, up to MostStormCells. 0: DefaultStormCells.
	MostCells int
	// Progress is told after each second or so of a storm which share of all the
	// runs is done, 0 to 1; nil for silence. It is called from the calling
	// goroutine only.
	Progress func(done float64)
	// Expect is told the expected time once, before the first run.
	Expect func(time.Duration)
	// Seen is told the depths of a storm's middle run as soon as they are there,
	// with the beds and without, long before its bands; nil for silence. It is
	// called from the calling goroutine only.
	Seen func(returnYears float64, with, without []StormFrame)
}

// Storm is what bursts of winter rain do over a plot, with the beds and without.
type Storm struct {
	Key   string  `json:"inputs"` // a hash of what went in
	Cell  float64 `json:"cell_m"`
	Cells int     `json:"cells"`
	// Storms are the return periods played, shortest first. One that was
	// interrupted has under nine runs.
	Storms  []StormPlayed `json:"storms"`
	Assumed []string      `json:"assumed"`
	// Claimed and NotClaimed say what may be read from the figures.
	Claimed    []string `json:"claimed"`
	NotClaimed []string `json:"not_claimed"`
}

// StormPlayed is one return period. Every band is the least and the greatest of
// its runs: three infiltrations by three roughnesses.
type StormPlayed struct {
	ReturnYears float64      `json:"return_period_years"`
	Minutes     float64      `json:"burst_minutes"`
	Depth       float64      `json:"burst_mm"`
	Runs        int          `json:"runs"` // of 9, each with the beds and without
	WithBeds    StormWater   `json:"with_beds"`
	Without     StormWater   `json:"without_beds"`
	Boards      []StormBoard `json:"boards"`
	// FirstOver is the board that water first runs over in the middle run, in
	// words; empty: none.
	FirstOver string `json:"first_over"`
	// LessPull counts, of Cases, those in which the pull of water over its limit
	// is less with the beds than without: three limits for each run.
	LessPull int    `json:"less_pull_in_cases"`
	Cases    int    `json:"cases"`
	Rank     string `json:"rank"`
	// AtBeds is the depth at each bed, by name.
	AtBeds []StormAtBed `json:"at_beds"`
	Frames []StormFrame `json:"frames"` // of the middle run with the beds
	// FramesWithout are the same of the middle run without the beds.
	FramesWithout []StormFrame `json:"frames_without_beds"`
}

// StormWater is where the water of one return period goes.
type StormWater struct {
	Rain     geodata.Estimate `json:"rain_m3"`
	RunOn    geodata.Estimate `json:"run_on_m3"`
	TakenUp  geodata.Estimate `json:"taken_up_m3"`
	Stands   geodata.Estimate `json:"stands_at_end_m3"`
	Leaves   []StormSide      `json:"leaves"`
	Quickest *StormPlace      `json:"quickest"` // null: nowhere does water run
	Deepest  *StormPlace      `json:"deepest"`
	// Balance is the greatest error of any run, as a share of the water.
	Balance float64 `json:"balance_error"`
}

// StormSide is the water that leaves by one side.
type StormSide struct {
	Side   string           `json:"side"`
	Volume geodata.Estimate `json:"m3"`
}

// StormPlace is a square of half a metre, or of a cell where that is wider, with
// a mean over it.
type StormPlace struct {
	At    orb.Point        `json:"at"`
	Value geodata.Estimate `json:"value"`
	Unit  string           `json:"unit"`
}

// StormBoard is the water at one side of a framed bed.
type StormBoard struct {
	Bed      string           `json:"bed"`
	Side     string           `json:"side"`
	Stood    geodata.Estimate `json:"stood_mm"` // greatest mean depth against it
	Overtops int              `json:"overtops_in_runs"`
	// First and RainUntil are when water first runs over it in the middle run
	// and how much rain has fallen by then; null: it does not.
	First     *float64 `json:"first_over_minutes"`
	RainUntil *float64 `json:"first_over_rain_mm"`
	// Seepage is true where the way under the board is too short, by Lane's
	// creep ratio, for the water that stands against it.
	Seepage bool `json:"seepage_likely"`
}

// StormAtBed is the sheet of water over a bed and the half metre around it.
type StormAtBed struct {
	Bed   string           `json:"bed"`
	At    orb.Point        `json:"centre"`
	Depth geodata.Estimate `json:"depth_mm"` // greatest mean over a square
}

// StormFrame is the depth over the plot at one time, row by row from the south
// west; null where there is no ground.
type StormFrame struct {
	Minutes float64    `json:"minutes"`
	Cols    int        `json:"cols"`
	Rows    int        `json:"rows"`
	Square  float64    `json:"square_m"`
	Origin  orb.Point  `json:"origin"`
	Depth   []*float64 `json:"depth_mm"`
}

const (
	defaultStormMinutes = 30
	afterMinutes        = 10 // that water is followed after the rain
	stormFrames         = 12
	stormRuns           = 9
)

// RunStorm plays design storms over a plot on soaked ground, with the beds of its
// assessment and without them: nine runs each, three infiltrations (winter
// figures by texture) by three roughnesses (by cover), to which three limits of
// shear are put afterwards. When the context is cancelled, what was finished
// comes with its error. Plots too large for the cells, and return periods or
// durations that are not played, are errors.
func RunStorm(ctx context.Context, p *geodata.Plot, a *Assessment, opt StormOptions) (*Storm, error) {
	if err := opt.settle(); err != nil {
		return nil, err
	}
	brief, faults := settle(p)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	fit, err := walk.FitPlot(p)
	if err != nil {
		return nil, groundFault(p, err)
	}
	cell, err := stormCell(p.Boundary, opt.MostCells)
	if err != nil {
		return nil, err
	}
	s := &stormPlay{plot: p, assessed: a, brief: brief, fit: fit, cell: cell, opt: opt}
	if s.with, err = s.model(true); err != nil {
		return nil, err
	}
	if s.without, err = s.model(false); err != nil {
		return nil, err
	}
	out := &Storm{Key: StormKey(p), Cell: cell, Cells: s.with.Cells(), Assumed: s.assumed(), Claimed: stormClaimed(), NotClaimed: stormNotClaimed()}
	if opt.Expect != nil {
		opt.Expect(s.expected())
	}
	bursts := rain.DesignStorms(p.Rain, p.Site.Rain, p.Site.Place.Latitude)
	for _, years := range opt.Years {
		for _, b := range bursts {
			if b.ReturnYears != years {
				continue
			}
			played, err := s.play(ctx, b)
			if played.Runs > 0 {
				out.Storms = append(out.Storms, played)
			}
			if err != nil {
				return out, err
			}
		}
	}
	return out, nil
}

// settle fills in the options and says what is wrong with them.
func (o *StormOptions) settle() error {
	if len(o.Years) == 0 {
		o.Years = []float64{10}
	}
	if o.Minutes == 0 {
		o.Minutes = defaultStormMinutes
	}
	if o.MostCells == 0 {
		o.MostCells = DefaultStormCells
	}
	for _, y := range o.Years {
		if y != 2 && y != 10 && y != 30 {
			return fmt.Errorf("a storm met once in %g years: those of 2, 10 and 30 years can be played", y)
		}
	}
	if o.Minutes != math.Round(o.Minutes) || o.Minutes < 30 || o.Minutes > 60 {
		return fmt.Errorf("a burst of %g minutes: 30 to 60 whole minutes can be played", o.Minutes)
	}
	if o.MostCells < 100 || o.MostCells > MostStormCells {
		return fmt.Errorf("%d cells: 100 to %d can be played", o.MostCells, MostStormCells)
	}
	return nil
}

// play is one return period.
func (s *stormPlay) play(ctx context.Context, b rain.Burst) (StormPlayed, error) {
	out := StormPlayed{ReturnYears: b.ReturnYears, Minutes: s.opt.Minutes}
	rates, err := b.Hyetograph(s.opt.Minutes, 1)
	if err != nil {
		return out, err
	}
	series := stormflow.Series{Step: 60}
	for _, r := range rates {
		series.Rates = append(series.Rates, r/3.6e6)
		out.Depth += r / 60
	}
	var runs []stormPair
	for i, mat := range s.coverings() {
		pair, err := s.pair(ctx, series, mat, i == 0)
		if err != nil {
			s.summarise(&out, runs)
			return out, err
		}
		runs = append(runs, pair)
		if i == 0 && s.opt.Seen != nil {
			with, without := s.framesOf(pair)
			s.opt.Seen(b.ReturnYears, with, without)
		}
	}
	s.summarise(&out, runs)
	return out, nil
}

// stormPair is one run with the beds and one without.
type stormPair struct {
	with, without         *stormflow.Result
	frames, framesWithout []stormflow.Frame
}

func (s *stormPlay) pair(ctx context.Context, series stormflow.Series, c covering, middle bool) (stormPair, error) {
	storm := stormflow.Storm{
		Rain: series, Duration: (s.opt.Minutes + afterMinutes) * 60, Materials: c.materials(),
		ShearLimits: stormLimits[:],
	}
	var pair stormPair
	var err error
	if storm.RunOn, err = s.runOn(ctx, storm); err != nil {
		return pair, err
	}
	opt := stormflow.Options{Progress: s.progress}
	if middle {
		opt.Frames = stormFrames
	}
	if pair.with, pair.frames, err = s.with.Run(ctx, storm, opt); err != nil {
		return pair, err
	}
	s.done++
	pair.without, pair.framesWithout, err = s.without.Run(ctx, storm, opt)
	s.done++
	return pair, err
}

// stormLimits are the shears over which it is summed, Pa: most published limits
// of soils lie from 0 to 5 (Knapen et al. 2007, Earth-Science Reviews 80, from
// memory); which three is a default of ours.
var stormLimits = [3]float64{soil.MovingPull, 1.5, 3}
