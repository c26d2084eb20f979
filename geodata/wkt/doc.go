// Package wkt reads points from geometries in well-known text and well-known
// binary: the forms of ISO 19125 and ISO 13249-3 with heights (POINT Z, POINTZ,
// type 1001), the extended forms with a coordinate system (SRID=4326;..., type
// 0x80000001), the old binary form of heights (type 0x8001), and the binary form
// written as hexadecimal text. A file may hold several geometries one after
// another.
//
// Names are not part of these forms, nor are units: coordinates come out as they
// stand, and are degrees only where the file names a system that has them.
package wkt
