// Package testdata holds the example plot that the demo command writes, so
// that tests and the program share one copy. Only cmd imports it.
package testdata

import "embed"

// Hillside is the example plot's input files, in the folder hillside. What the
// plot was made from stands in that folder's README.md, which is not embedded.
//
//go:embed hillside/*.csv hillside/*.toml
var Hillside embed.FS
