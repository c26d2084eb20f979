// Package heightgrid reads the ground from height grids and point clouds: text
// grids with a header of rows and columns (.asc), lists of x, y, z in any order
// (.xyz), GeoTIFF (.tif) and uncompressed LAS (.las). A file is known by what
// it holds, not by its name.
//
// Open reads what the file says of itself; Window reads the heights of a part
// of it and All those of the whole. From a GeoTIFF only the rows or tiles that
// a window needs are read; text and LAS files are read through once for each
// call, with no more memory than the window takes.
//
// Axes: x east, y north, row 0 the southern row, a cell's place its centre.
// Coordinates and heights are metres whatever the file's unit, except that a
// file in degrees of longitude and latitude keeps degrees in the plan and says
// so. NaN means no height. Nothing tells a model of the ground from one of the
// roofs and tree tops on it: ask the person.
//
// Every error is geodata.Faults, but for those of a context that was ended.
// The package touches no disk.
package heightgrid
