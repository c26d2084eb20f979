// Package csvtable reads tables that people type or export: rows of cells with
// their places in the file. It finds out the encoding, the delimiter and the
// meaning of commas in numbers, and says what it took for granted. It knows
// nothing of what the columns mean.
//
// A table is read from bytes; the package touches no disk. Lines and columns
// count from 1, columns in characters.
package csvtable
