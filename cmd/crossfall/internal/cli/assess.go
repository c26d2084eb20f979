package cli

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"crossfall/cmd/crossfall/internal/export"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/caution"

	"github.com/spf13/cobra"
)

// assessOptions is what assess was asked to do.
type assessOptions struct {
	plot string // folder or file
	read plotfolder.Options
	// files to write; empty: none
	report, plan, sections string
	out                    string        // folder for a file of every kind; empty: none
	json                   bool          // instead of text
	storm                  []float64     // return periods of the storms to play first; empty: none
	why                    string        // print the working of this figure instead of text
	units                  geodata.Units // empty: those of the plot
	color                  bool          // mark the text on standard output
	width                  int           // of a line, characters
	breach                 bool          // hollows let out by trenches
}

// newAssess is the whole decision for one plot.
func newAssess(s Streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "assess [PLOT]",
		Short: "Decide what can be built on a plot: ground, water, beds, edges, pegs, quantities",
		Long: `Reads a plot and gives the whole decision: the fall of the ground and how sure it
is, where winter rain runs, where beds can go and which way round, their edges,
boards and pegs, what to buy and carry, how to set it out, and every caution.

PLOT is a plot folder, or a single file of heights; left out, it is the folder
you are in. What you have not said is taken as usual and named in the result.

Results go to standard output. The exit code is 0 when done, 1 when the input is
at fault (then nothing is written), 2 for a wrong command line, and 3 when the
result holds a stop caution that nobody has acknowledged in site.toml.`,
		Example: `  crossfall assess heights.csv
  crossfall assess garden --report garden.html
  crossfall assess garden --out garden-result
  crossfall assess garden --units ft --plan garden.svg
  crossfall assess garden --why bed-1.pegs.embedment
  crossfall assess garden --json > garden.json`,
		Args: atMost(1, "one plot folder or file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if asked, err := cmd.Flags().GetBool("schema"); err != nil || asked {
				_, errWrite := cmd.OutOrStdout().Write(export.Schema())
				return errors.Join(err, errWrite)
			}
			o, err := toAssessOptions(cmd, args, s)
			if err != nil {
				return err
			}
			return assess(cmd, s, o)
		},
	}
	f := cmd.Flags()
	f.String("report", "", "also write a report to print and build from, an HTML or PDF `FILE`")
	f.String("plan", "", "also write the plan as a drawing, an SVG, PDF or PNG `FILE`")
	f.String("sections", "", "also write a section through each bed, to scale, an SVG `FILE`")
	f.String("out", "", "also write a file of every kind into a folder `DIR`: report, plan, lists, points, drawing, JSON; those before are kept in DIR/before")
	f.Bool("json", false, "write the result as JSON, in metres and degrees, instead of text")
	f.Bool("schema", false, "print the JSON Schema of that JSON, with what each key means, and do no more")
	f.String("why", "", "print how one figure was come by: the `ID` that stands beside it in the report's working; the word list names them all")
	f.String("units", "", "units to show: `m` (metres) or ft (feet and inches); left out, those of the plot")
	complete(cmd, "units", unitWords...)
	addColumns(cmd)
	return cmd
}

// unitWords are the values of --units.
var unitWords = []string{"m", "ft"}

// toAssessOptions turns words and flags into options.
func toAssessOptions(cmd *cobra.Command, args []string, s Streams) (o assessOptions, err error) {
	f := cmd.Flags()
	o.plot = "."
	if len(args) > 0 {
		o.plot = args[0]
	}
	units, errUnits := f.GetString("units")
	var errReport, errPlan, errJSON, errWhy error
	o.why, errWhy = f.GetString("why")
	var errRead error
	o.read, errRead = readOptions(cmd)
	o.report, errReport = f.GetString("report")
	o.plan, errPlan = f.GetString("plan")
	var errSections, errOut error
	o.sections, errSections = f.GetString("sections")
	o.out, errOut = f.GetString("out")
	o.json, errJSON = f.GetBool("json")
	if err := errors.Join(errUnits, errReport, errPlan, errSections, errOut, errJSON, errWhy, errRead); err != nil {
		return o, err
	}
	o.width = width(s.Out)
	if o.color, err = colored(cmd, s, s.Out); err != nil {
		return o, err
	}
	switch {
	case units != "" && !slices.Contains(unitWords, units):
		return o, wrongUse(cmd, "--units %q is not m or ft", units)
	case f.Changed("why") && o.json:
		return o, wrongUse(cmd, "--why prints text and goes without --json")
	case f.Changed("out") && o.out == "":
		return o, wrongUse(cmd, "--out wants the name of a folder")
	case f.Changed("report") && !hasExtension(o.report, reportEndings...):
		return o, wrongUse(cmd, "--report %q does not end in .html or .pdf", o.report)
	case f.Changed("plan") && !hasExtension(o.plan, planEndings...):
		return o, wrongUse(cmd, "--plan %q does not end in .svg, .pdf or .png", o.plan)
	case f.Changed("sections") && !hasExtension(o.sections, ".svg"):
		return o, wrongUse(cmd, "--sections %q does not end in .svg", o.sections)
	}
	o.units = geodata.Units(units)
	return o, nil
}

// hasExtension keeps a slip such as --report heights.csv from writing over input.
func hasExtension(path string, extensions ...string) bool {
	return slices.Contains(extensions, strings.ToLower(filepath.Ext(path)))
}

func assess(cmd *cobra.Command, s Streams, o assessOptions) error {
	for _, path := range []string{o.report, o.plan, o.sections} {
		if path != "" {
			if err := checkTarget(path); err != nil {
				return err
			}
		}
	}
	if o.out != "" {
		if err := checkOut(o.out, o.plot); err != nil {
			return err
		}
	}
	a, units, err := decide(cmd.Context(), s, o)
	if err != nil {
		return explain(s, err)
	}
	if o.units == "" {
		o.units = units
	}
	if err := publish(cmd, s, a, o); err != nil {
		return err
	}
	return stops(s, a)
}

// plannedReadings is how many heights worth taking are planned as one walk.
const plannedReadings = 3

// decide reads the plot and runs the engine, with its progress on a terminal.
func decide(ctx context.Context, s Streams, o assessOptions) (*siting.Assessment, geodata.Units, error) {
	p, err := plotfolder.Read(o.plot, o.read)
	if err != nil {
		return nil, "", err
	}
	line := newProgress(s)
	defer line.clear()
	shown := o.units
	if o.json { // for programs, and the same whatever a person is shown
		shown = ""
	}
	a, err := siting.Assess(ctx, p, siting.Options{Units: shown, Progress: line.show, Readings: plannedReadings, Storm: keptStorm(o.plot), Breach: o.breach})
	return a, geodata.Units(p.Site.Units), err
}

// stops ends the command with its own exit code while a stop caution stands
// that nobody has acknowledged.
func stops(s Streams, a *siting.Assessment) error {
	var ids []string
	for _, c := range a.Cautions {
		if c.Severity == caution.Stop && c.AcknowledgedBy == "" {
			ids = append(ids, c.ID)
		}
	}
	if len(ids) == 0 {
		return nil
	}
	fmt.Fprintf(s.Err, "crossfall: stop: the work must not begin before this is settled: %s\n", strings.Join(ids, ", "))
	return errStopped
}
