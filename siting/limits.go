package siting

// Limits of a storm played over a plot: defaults of ours, for the time it takes.
// Those of what is read stand in geodata.
const (
	// DefaultStormCells is the number of cells that a storm is played on unless
	// more are asked for: the smallest cells of 0.1 to 1 m that give no more. The
	// nine runs of one return period over 15,000 cells, each with the beds and
	// without, take several minutes on two cores, 30 MB and no longer with fewer
	// heights; they tell how far they are, and what is finished is kept.
	DefaultStormCells = 15_000
	// MostStormCells is the greatest number that may be asked for.
	MostStormCells = 60_000
	// LongestStormRow is the greatest number of cells along a side: 60 m are never
	// played in cells of 0.1 m.
	LongestStormRow = 400
)
