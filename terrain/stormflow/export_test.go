package stormflow

// Depth is the depth on a cell of the spec, m.
func (s State) Depth(col, row int) float64 { return s.s.h[s.s.m.at(col, row)] }

// North is the discharge through the southern face of a cell, m2/s, northward;
// row may be one past the last.
func (s State) North(col, row int) float64 { return s.s.qy[s.s.m.at(col, row)] }
