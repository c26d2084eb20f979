// Package rain turns the rain figures of a plot into those that siting needs:
// the rain of the winter half-year (WinterHalf), the short burst that the bed
// edges are judged by (DesignRate), how rare which day of rain is
// (Record.WinterFrequency and its kin), how a day's rain is spread over it
// (StormType, AlternatingBlocks), and how strongly the rain of a year washes
// soil away (AnnualErosivity, ErosivityByIntervals, WinterShare).
//
// Depths are millimetres, rates millimetres per hour, durations minutes,
// return periods years. A return period of T years means "met or passed once
// in T years on average". MT-D is the depth of duration D and return period T.
// Shapes of distributions are in the sign of Coles (2001): over 0 is a heavy tail.
package rain
