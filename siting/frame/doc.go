// Package frame settles the edge of one bed on sloping ground: whether it
// needs boards, how high and how thick, how deep the boards are let into the
// ground and the pegs driven, whether the bed must be stepped, and whether it
// should be built at all.
//
// Decide is the one call for a whole bed, Alternatives sets the other edges
// beside its answer, and Sensitive weighs it over what is not known of ground,
// water and fill. The functions under them are the published formulas, each with
// its source, and can be used alone.
//
// Units: metres, kilonewtons (line loads kN/m), kilopascals, kN/m3; timber
// stresses N/mm2. A slope or fall is a ratio, metres of fall per metre of plan.
// "Across" is over the short side, "along" over the long side; both are 0 or
// more. The outside ground at the foot of a board is the level from which
// retained height and embedment are measured.
package frame
