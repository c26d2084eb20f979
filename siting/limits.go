package siting

// Limits of a storm played over a plot: defaults of ours, for the time it takes.
// Those of what is read stand in geodata.
const (
	// DefaultStormCells is the number of cells that a storm is played on unless
	// more are asked for, with the smallest cells of 0.1 to 1 m that give no more.
	// The nine runs of one return period, each with the beds and without, take
	// 6 minutes of one core and 42 MB over 14,900 cells of 0.1 m, and 1 minute and
	// 75 MB over as many of 1 m; they tell how far they are, and what is finished is
	// kept.
	DefaultStormCells = 15_000
	// MostStormCells is the greatest number that may be asked for.
	MostStormCells = 60_000
	// LongestStormRow is the greatest number of cells along a side: 60 m are never
	// played in cells of 0.1 m.
	LongestStormRow = 400
)
