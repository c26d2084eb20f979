// Package cli is the command line: it turns words and flags into options, calls
// the engine, and decides what goes to standard output, to standard error and
// into files.
//
// Results go to standard output and everything else to standard error. Output
// is held back until a command has succeeded, so that a failure leaves
// standard output empty and no file behind.
package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
)

// The exit codes.
const (
	codeDone    = 0
	codeFailed  = 1 // the input is at fault, or the work could not be done
	codeUsage   = 2 // the command line is wrong
	codeStopped = 3 // done, but a stop caution stands that nobody has acknowledged
)

// Streams is where a run reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string // nil: no environment
}

// env is a variable of the environment, empty when there is none.
func (s Streams) env(name string) string {
	if s.Getenv == nil {
		return ""
	}
	return s.Getenv(name)
}

// errStopped ends a command whose results stand beside a stop caution. What
// must be said about it has been said.
var errStopped = errors.New("a stop caution stands")

// errTold ends a command that has already explained its failure.
var errTold = errors.New("already told")

// Run runs one command line and gives the exit code.
func Run(ctx context.Context, args []string, s Streams) int {
	return guarded(s.Err, func() int {
		var out bytes.Buffer
		root := newRoot(s, &out)
		root.SetArgs(args)
		err := root.ExecuteContext(ctx)
		code := told(s.Err, root, err)
		if code != codeDone && code != codeStopped {
			return code
		}
		if _, err := s.Out.Write(out.Bytes()); err != nil {
			say(s.Err, fmt.Errorf("could not write the result: %w", err))
			return codeFailed
		}
		return code
	})
}

// say writes one error the way every error is written.
func say(w io.Writer, err error) { fmt.Fprintf(w, "crossfall: %v\n", err) }
