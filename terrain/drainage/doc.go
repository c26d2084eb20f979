// Package drainage says where water runs: the path it takes down the ground
// from a point, the ground above a bed that drains on to it, and, on a grid of
// heights of any size, how much ground drains through every node.
//
// Paths follow the steepest descent of a continuous surface, not the nodes of
// a grid; amounts on big ground are routed from node to node. Lengths are
// metres in plan, areas square metres in plan, gradients metres of rise per
// metre.
package drainage
