// Package terrain holds the words that every description of the ground
// shares: gradient, bearing, a height at a point, and a grid of heights.
// Its children fit surfaces, draw relief and follow water.
//
// x is east, y north, z up, metres. A gradient is metres of rise per metre of
// plan distance. A bearing is radians clockwise from the +y axis; what that
// axis points at is the plot's Frame's to say.
package terrain
