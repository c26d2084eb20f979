// Package faulttest tells faults briefly, for the tests of the readers.
package faulttest

import (
	"fmt"

	"crossfall/geodata"
)

// Codes lists faults as severity, code and place without the file: "problem
// bad-height:3:7".
func Codes(faults geodata.Faults) (out []string) {
	for _, f := range faults {
		pos := f.Pos
		pos.File = ""
		out = append(out, fmt.Sprintf("%s %s%s", f.Severity, f.Code, pos))
	}
	return out
}
