// Package plotfolder reads a plot folder, or a single file of heights, into a
// geodata.Plot, and writes into the folder without losing what is there.
//
// It is the one package below cmd that touches the disk. Reading never stops at
// the first fault: all faults are gathered with their places, and a plot comes
// out whole or not at all. What was assumed, averaged or left out is told in
// Plot.Notes.
//
// Local coordinates are metres east and north of the plot's own corner.
// Longitude and latitude (WGS84, degrees) are turned into metres about an
// origin near the plot; then +y is true north.
package plotfolder
