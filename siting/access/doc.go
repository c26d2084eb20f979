// Package access finds how a person with a barrow gets from the gate, or from
// the heap of compost, to the beds of a plot: where a barrow of a given width
// can pass, the way that climbs no steeper than it need, and what stands in the
// way of a bed that cannot be reached.
//
// The plot is cut into square cells. In each the place that is farthest from
// everything on the plot stands for the cell, so that a path just as wide as
// the barrow is found whatever way it lies. Gradients are ratios of rise over
// plan length; lengths are plan metres.
package access
