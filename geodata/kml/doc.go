// Package kml reads points from KML 2.2 files and from KMZ archives: points,
// the corners of lines and areas, and tracks, in folders and groups of any
// depth and under any prefix. Longitude and latitude are degrees on WGS84,
// heights metres above sea level.
//
// KML marks whether an altitude means anything. Laid on the ground, which is
// the default, an altitude of 0 is no height; one that is relative to the
// ground is never a height of the ground (OGC 07-147r2, KML 2.2, altitudeMode,
// from memory). Corners whose separators can be read in two ways
// are refused.
package kml
