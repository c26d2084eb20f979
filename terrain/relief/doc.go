// Package relief reads the shape of the ground off a grid of heights: slope
// and curvature at its nodes, contours, and the hollows that hold water.
//
// Heights and spacing are metres, gradients metres of rise per metre of plan
// distance. Row 0 of a grid is its southern row. A node with NaN (or an
// infinite height) has no height and nothing is made up for it.
package relief
