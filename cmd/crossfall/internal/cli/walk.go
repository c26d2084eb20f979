package cli

import (
	"encoding/json"
	"errors"
	"slices"

	"crossfall/cmd/crossfall/internal/term"
	"crossfall/geodata"
	"crossfall/geodata/levelbook"
	"crossfall/geodata/plotfolder"
	"crossfall/terrain/surface"
	"crossfall/terrain/walk"

	"github.com/spf13/cobra"
)

// walkOptions is what walk was asked to do.
type walkOptions struct {
	plot  string
	add   bool // take readings one by one
	json  bool
	units geodata.Units // empty: those of the plot
	read  plotfolder.Options
	color bool
	width int
}

// newWalk checks the readings of a plot.
func newWalk(s Streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "walk [PLOT]",
		Short: "Check the readings so far, and say where the staff should go next",
		Long: `Reads the heights of a plot and says whether they are sound: how the level book
closes and what it was reduced to, repeated readings and what they were averaged
to, how far each height lies off the ground that the others make, heights that look
mis-booked, what the ground is like so far, and where it is known least.

With --add it takes readings one by one at the terminal. Each is judged against the
others before it is booked, and is on disk before the next is asked for. Enter alone
ends.

PLOT is a plot folder, or a single file of heights; left out, it is the folder you
are in.`,
		Example: `  crossfall walk garden
  crossfall walk garden --add
  crossfall walk heights.csv --json
  crossfall walk survey.txt --columns point,north,east,height`,
		Args: atMost(1, "one plot folder or file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := toWalkOptions(cmd, args, s)
			if err != nil {
				return err
			}
			if o.add {
				return addReadings(cmd.Context(), s, o)
			}
			return look(cmd, s, o)
		},
	}
	f := cmd.Flags()
	f.Bool("add", false, "take readings one by one and append them to the heights")
	f.Bool("json", false, "write the result as JSON, in metres and degrees, instead of text")
	f.String("units", "", "units to show: `m` (metres) or ft (feet and inches); left out, those of the plot")
	complete(cmd, "units", unitWords...)
	addColumns(cmd)
	return cmd
}

// toWalkOptions turns words and flags into options.
func toWalkOptions(cmd *cobra.Command, args []string, s Streams) (o walkOptions, err error) {
	f := cmd.Flags()
	o.plot = "."
	if len(args) > 0 {
		o.plot = args[0]
	}
	units, errUnits := f.GetString("units")
	var errAdd, errJSON, errRead error
	o.read, errRead = readOptions(cmd)
	o.add, errAdd = f.GetBool("add")
	o.json, errJSON = f.GetBool("json")
	if err := errors.Join(errUnits, errAdd, errJSON, errRead); err != nil {
		return o, err
	}
	switch {
	case units != "" && !slices.Contains(unitWords, units):
		return o, wrongUse(cmd, "--units %q is not m or ft", units)
	case o.add && o.json:
		return o, wrongUse(cmd, "--add asks at the terminal and goes without --json")
	}
	o.units, o.width = geodata.Units(units), width(s.Out)
	o.color, err = colored(cmd, s, s.Out)
	return o, err
}

// walked is what --json writes: the survey, and the books that it came from.
type walked struct {
	*walk.Survey
	Levels *levelbook.Reduction `json:"levels,omitempty"`
	Ties   *levelbook.Solution  `json:"ties,omitempty"`
}

// look reads the plot and prints what the survey says.
func look(cmd *cobra.Command, s Streams, o walkOptions) error {
	books, errBooks := plotfolder.Books(o.plot)
	p, err := plotfolder.Read(o.plot, o.read) // tells the faults of the books too, with all others
	if err == nil {
		err = errBooks
	}
	if !o.json {
		if err := tellBooks(cmd, s, books, p, o); err != nil {
			return err
		}
	}
	if err != nil {
		return explain(s, err)
	}
	survey, err := walk.Look(p)
	if err != nil {
		return explain(s, surveyFault(p, err))
	}
	if o.json {
		e := json.NewEncoder(cmd.OutOrStdout())
		e.SetIndent("", "  ")
		return e.Encode(walked{survey, books.Levels, books.Ties})
	}
	if o.units == "" {
		o.units = geodata.Units(p.Site.Units)
	}
	return term.Walk(cmd.OutOrStdout(), survey, term.Options{Units: o.units, Width: o.width, Color: o.color})
}

// tellBooks prints how the level book and the ties close. Where their heights
// cannot be used they are shown on standard error, beside the faults that
// follow from them.
func tellBooks(cmd *cobra.Command, s Streams, books plotfolder.Booked, p *geodata.Plot, o walkOptions) error {
	out, units := s.Err, o.units
	if p != nil {
		out = cmd.OutOrStdout()
		if units == "" {
			units = geodata.Units(p.Site.Units)
		}
	}
	opt := term.Options{Units: units, Width: o.width, Color: o.color && p != nil}
	if p != nil {
		if err := term.PlotName(out, p.Name, opt); err != nil {
			return err
		}
	}
	if books.Levels != nil {
		if err := term.Book(out, *books.Levels, opt); err != nil {
			return err
		}
	}
	if books.Ties != nil {
		return term.Ties(out, *books.Ties, opt)
	}
	return nil
}

// surveyFault tells why the heights make no ground.
func surveyFault(p *geodata.Plot, err error) error {
	f := geodata.Fault{Code: "ground-not-fitted", Pos: geodata.Pos{File: "heights"}, Message: err.Error()}
	if len(p.Spots) > 0 {
		f.Pos = geodata.Pos{File: p.Spots[0].Source.File}
	}
	if errors.Is(err, surface.ErrHeightsInLine) {
		f.Want = "add heights well to one side of the line"
	}
	return geodata.Faults{f}
}
