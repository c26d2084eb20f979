// Package levelbook turns what was booked in the field into spot heights: level
// books with backsights, intersights and foresights, tape ties, chainage and
// offset, bearings, traverses, grid walks, and the readings of simple
// instruments (water tube, line level, A-frame, clinometer, paces).
//
// A book is read by ReadLevels and reduced by Book.Reduce; ties are read by
// ReadTies and solved by Ties.Solve; Heights joins both by the names of the
// stations. Lengths are metres, x east, y north; angles are radians; bearings
// run clockwise from the +y axis. Every height and position carries a standard
// deviation, and every check that could be made is in the results, passed or
// not: the arithmetic checks prove the arithmetic only, never the field work.
//
// The package opens no file and draws no conclusions for beds.
package levelbook
