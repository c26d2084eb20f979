// Package gpx reads points from GPX files, versions 1.0 and 1.1, as phones and
// hand-held receivers write them. Longitude and latitude are degrees on WGS84,
// heights metres.
//
// Only what is needed is looked at, by local names, since many programs write
// a wrong namespace, a wrong version or elements of their own. A height that is
// not given stays missing: it never becomes 0. Every file with heights brings
// the warning gpx-heights-rough.
package gpx
