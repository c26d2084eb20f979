// Package mapgrid turns longitude and latitude into eastings and northings of
// UTM zones and of national grids on the transverse Mercator projection, and
// back, and keeps true, grid and magnetic north apart.
//
// Places are orb.Point: longitude and latitude in degrees (east and north
// positive), or easting and northing in metres. Bearings and other angles are
// radians; bearings run clockwise from the north that is named, turns to the
// east are positive.
//
// The projection is exact to far below a millimetre. What is not is the datum:
// each grid stands on its own, and FromWGS84 says by how much a place may be off
// as a whole. Places within a plot keep their distances all the same.
package mapgrid
