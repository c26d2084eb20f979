// Package drainage says where water runs: the path it takes down the ground
// from a point, and the ground above a bed that drains on to it.
//
// Paths follow the steepest descent of a continuous surface, not the cells of
// a grid. Lengths are metres in plan, areas square metres in plan, gradients
// metres of rise per metre.
package drainage
