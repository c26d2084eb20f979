package heightgrid

import (
	"context"
	"errors"
	"fmt"
	"io"

	"crossfall/geodata"
)

// mostFaults is how many faults a reader gathers before it stops.
const mostFaults = 20

// refuse is a problem that ends reading. The file's name is filled in by
// faultsOf.
func refuse(code, message, want string) error {
	return geodata.Fault{Code: code, Severity: geodata.Problem, Message: message, Want: want}
}

func tooLarge(n int64, what string, most int) error {
	return refuse("window-too-large",
		fmt.Sprintf("the window holds %d %s, more than the %d that are read at once", n, what, most),
		"ask for a smaller window, or cut the part around the plot out of the file")
}

// cutShort is the fault of a file that ends before what it claims to hold.
func cutShort(what string) error {
	return refuse("file-cut-short", "the file ends before its "+what, "download or copy the file again")
}

// faultsOf turns what a reader returns into the faults of a named file. The
// end of a context is passed on.
func faultsOf(name string, err error) error {
	var fault geodata.Fault
	var faults geodata.Faults
	switch {
	case err == nil:
		return nil
	case errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded):
		return fmt.Errorf("read %s: %w", name, err)
	case errors.As(err, &faults):
	case errors.As(err, &fault):
		faults = geodata.Faults{fault}
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		return faultsOf(name, cutShort("heights"))
	default:
		faults = geodata.Faults{{
			Code: "file-not-read", Severity: geodata.Problem,
			Message: "the file could not be read: " + err.Error(), Want: "check that the file is whole and may be read",
		}}
	}
	located(name, faults)
	faults.Sort()
	return faults
}

// located puts the file's name into faults that have none.
func located(name string, faults geodata.Faults) {
	for i := range faults {
		if faults[i].Pos.File == "" {
			faults[i].Pos.File = name
		}
	}
}

// clip shortens what was read so that it fits into a message.
func clip(text []byte) string {
	const most = 40
	if len(text) > most {
		return string(text[:most]) + "..."
	}
	return string(text)
}
