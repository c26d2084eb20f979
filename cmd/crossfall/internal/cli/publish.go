package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/cmd/crossfall/internal/term"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/plan"

	"github.com/spf13/cobra"
)

// publish writes an assessment everywhere it was asked for. All of it is made
// before any of it is written.
func publish(cmd *cobra.Command, s Streams, a *siting.Assessment, o assessOptions) error {
	out := outFolder{dir: o.out}
	defer out.discard()
	var files plotfolder.Staged
	defer files.Discard()
	stage := func(path string, draw func(io.Writer) error) error {
		if path == "" {
			return nil
		}
		var content bytes.Buffer
		if err := draw(&content); err != nil {
			return fmt.Errorf("make %s: %w", path, err)
		}
		return files.Add(path, content.Bytes())
	}
	if err := stage(o.report, func(w io.Writer) error { return writeReport(w, a, o) }); err != nil {
		return err
	}
	if err := stage(o.plan, func(w io.Writer) error { return writePlan(w, a, o.plan, o) }); err != nil {
		return err
	}
	if err := stage(o.sections, func(w io.Writer) error { return plan.SectionsSVG(w, a, plan.Options{Units: o.units}) }); err != nil {
		return err
	}
	leftOut, err := out.prepare(&files, a, made(o))
	if err != nil {
		return err
	}
	if o.why != "" {
		if err := why(cmd, a, o); err != nil {
			return err
		}
	} else if err := printed(cmd.OutOrStdout(), a, o); err != nil {
		return err
	}
	if err := cmd.Context().Err(); err != nil { // interrupted while it was made
		return err
	}
	if err := files.Commit(); err != nil {
		return err
	}
	for _, path := range []string{o.report, o.plan, o.sections} {
		if path != "" {
			fmt.Fprintf(s.Err, "crossfall: wrote %s\n", path)
		}
	}
	out.tell(s.Err, leftOut)
	return nil
}

// printed gives the assessment as text or as JSON.
func printed(w io.Writer, a *siting.Assessment, o assessOptions) error {
	if o.json {
		return export.JSON(w, a)
	}
	return term.Print(w, a, term.Options{Units: o.units, Width: o.width, Color: o.color})
}

// mostFaults is the number of faults told at once.
const mostFaults = 20

// explain tells faults of the input one by one; any other error is left to the
// caller.
func explain(s Streams, err error) error {
	var faults geodata.Faults
	if !errors.As(err, &faults) {
		return err
	}
	if err := term.Faults(s.Err, faults, mostFaults); err != nil {
		return err
	}
	return errTold
}
