// Package relief reads the shape of the ground off a grid of heights: slope
// and curvature at its nodes, contours, the hollows that hold water, what a cut
// would drain, and where cold air lies. A terrain.Grid serves a plot; a Raster,
// with half the memory, or a RowSource, with next to none, serves a hillside.
//
// Heights and spacing are metres, gradients metres of rise per metre of plan
// distance. Row 0 of a grid is its southern row. A node with NaN (or an
// infinite height) has no height and nothing is made up for it.
package relief
