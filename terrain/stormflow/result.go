package stormflow

// Result is what a storm did.
type Result struct {
	Time    float64 // played, s; less than the duration when it was cancelled
	Steps   int
	Balance Balance
	Boards  []BoardResult // those of beds first, four each, then the others
	Lines   []LineResult
	Bands   Bands
	// CellSteps is the work done: cells times steps.
	CellSteps int64
}

// Balance is where the water went, m3.
type Balance struct {
	Began, Rain, RunOn float64
	TakenUp, Stands    float64
	Out                [4]float64 // by Side
	// Error is what is left when all is counted; of the order of rounding.
	Error float64
	// Negative counts cells that ever held less than nothing; always 0.
	Negative int
}

// Left is what left over all sides.
func (b Balance) Left() float64 { return b.Out[West] + b.Out[East] + b.Out[South] + b.Out[North] }

// BoardResult is the water at one board. Depths are means over those cells of
// the Model's bands that touch the board, never of one cell.
type BoardResult struct {
	Name string
	Over float64 // m3, in either direction
	Peak float64 // greatest discharge over its whole length, m3/s
	// First is when water first ran over it, s, and RainUntil the depth of rain
	// until then, m; -1: never.
	First, RainUntil float64
	// Stood is the greatest depth of water against it, on the side where that
	// is greater, as a mean over its length, m; StoodFor how long that mean was
	// over half the greatest, s.
	Stood, StoodFor float64
	// Head is the greatest difference of the water levels of its two sides, as
	// a mean over its length, m.
	Head float64
}

// LineResult is the water that passed a line.
type LineResult struct {
	Name            string
	ToRight, ToLeft float64 // m3, as seen from its beginning
	Peak            float64 // greatest net discharge either way, m3/s
}

// State is a look at a storm while it is played. Its slices are those of the
// run: they must not be changed or kept.
type State struct {
	Time, Step float64
	Balance    Balance
	s          *state
}

// East is the discharge through the western face of a cell, m2/s, eastward;
// col may be one past the last.
func (s State) East(col, row int) float64 { return s.s.qx[s.s.m.at(col, row)] }
