package cli

import (
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"
)

// guarded runs f and turns a panic, which is always a fault of the program,
// into a plain message and the exit code of a failure.
func guarded(w io.Writer, f func() int) (code int) {
	defer func() {
		if r := recover(); r != nil {
			code = codeFailed
			fmt.Fprintf(w, "crossfall: this is a fault in Crossfall, not in your input, and nothing was decided.\n"+
				"Please keep the input as it is and report it with these words:\n"+
				"  %v, %s, %s\n", r, panicPlace(), versionLine())
		}
	}()
	return f()
}

// panicPlace names the function of ours that was running. It is called while
// the panic's frames are still on the stack.
func panicPlace() string {
	pcs := make([]uintptr, 64)
	frames := runtime.CallersFrames(pcs[:runtime.Callers(1, pcs)])
	for panicked := false; ; {
		f, more := frames.Next()
		switch {
		case f.Function == "runtime.gopanic":
			panicked = true
		case panicked && strings.HasPrefix(f.Function, "crossfall/"):
			return fmt.Sprintf("in %s at %s:%d", f.Function, filepath.Base(f.File), f.Line)
		}
		if !more {
			return "in a place not known"
		}
	}
}
