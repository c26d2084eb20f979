// Package export writes an assessment, or a list of points, as files for other
// programs: GeoJSON, GPX, DXF and CSV, and the JSON of the whole with its schema.
// It names, converts and rounds; it computes nothing.
//
// Places are metres east (x) and north (y) in the plot's own frame, heights
// metres above the survey's own datum. Where the plot's place on the earth is
// known, GeoJSON and GPX carry longitude and latitude on WGS84 in place of x and
// y. All files are the same bytes for the same assessment.
package export
