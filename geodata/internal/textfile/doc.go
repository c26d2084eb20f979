// Package textfile is what the readers of text formats share: decoding a file
// to one run of UTF-8, the place of any byte of it, numbers as machines write
// them, and a list of faults that cannot grow without end.
package textfile
