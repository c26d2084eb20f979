// Package geodata is the vocabulary of what was measured and drawn on a plot:
// spot heights, fixtures, wishes, rain, the frame they are measured in, and the
// faults found while reading them.
//
// Axes: x east, y north, z up, in metres from a local origin. Which north is
// meant is part of the Frame and is always said. Lengths are metres, angles
// radians unless a name says degrees; people's units (feet and inches, percent,
// 1 in n) are met only in units.go.
//
// The children of this package read files and level books into these words;
// this package knows none of them and touches no disk.
package geodata
