package page

import (
	"errors"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
)

// faultsOf are the faults that an error of reading tells.
func faultsOf(err error) geodata.Faults {
	var faults geodata.Faults
	if errors.As(err, &faults) {
		return faults
	}
	return geodata.Faults{{Code: "unread", Severity: geodata.Problem, Message: err.Error()}}
}

// inPart is what can be shown of a plot that cannot be assessed yet, as with
// fewer than three heights: its wishes, what is drawn, and the heights so far.
func (g *garden) inPart(dir string) *geodata.Plot {
	p, err := plotfolder.ReadSoFar(dir)
	if err != nil {
		return &geodata.Plot{}
	}
	return p
}
