// Package rain turns the rain figures of a plot into the two that siting
// needs: the rain of the winter half-year, and the short burst that the bed
// edges are judged by.
//
// Depths are millimetres, rates millimetres per hour, durations minutes,
// return periods years. A return period of T years means "met or passed once
// in T years on average". MT-D is the depth of duration D and return period T.
package rain
