// Package dxf reads points with heights from drawings in ASCII DXF: points,
// the ends of lines, the corners of polylines, and the corners of faces.
//
// A drawing may be flat: then every height in it is 0 and says nothing of the
// ground. Such a drawing is refused with a question, and a flat layer among
// others gives its places without heights. Blocks and their insertions are not
// followed; they are counted. Binary DXF and DWG are refused.
package dxf
