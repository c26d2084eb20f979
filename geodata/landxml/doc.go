// Package landxml reads survey points and the points of ground surfaces from
// LandXML files, versions 1.0 to 1.2.
//
// In LandXML a place is written northing, easting, elevation, in that order;
// here X is the easting and Y the northing. All three are in the file's linear
// unit and come out in metres. A file that names no unit is refused unless the
// options name one.
package landxml
