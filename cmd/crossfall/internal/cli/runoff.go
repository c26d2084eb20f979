package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"

	"crossfall/cmd/crossfall/internal/term"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/frame"
	"crossfall/siting/plan"

	"github.com/spf13/cobra"
)

// newRunoff tells what winter rain does on a plot.
func newRunoff(s Streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "runoff [PLOT]",
		Short: "Follow winter rain over the plot, with the beds and without them",
		Long: `Reads a plot, decides its beds as assess does, and tells what winter rain does
there: where it comes in, runs, gathers, stands and leaves, over the ground as it
is and with the beds built; the ground that drains on to each bed; how deep and
fast water reaches each bed's upper edge in the storms met once in 2, 10 and 30
years; what it would take with it; and what to do about it.

With --storm, a burst of half an hour on soaked ground is first played over the
plot, nine times with the beds and nine times without, which takes minutes: where
water stands against which board, which board it runs over, how much leaves by
which side. It is kept in the plot folder as storm.json, and while nothing else of
the plot changes it may raise the class of an edge.

PLOT is a plot folder, or a single file of heights; left out, it is the folder
you are in.`,
		Example: `  crossfall runoff garden
  crossfall runoff garden --units ft --plan garden.svg
  crossfall runoff garden --storm 10y
  crossfall runoff garden --json > garden-water.json`,
		Args: atMost(1, "one plot folder or file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := toRunoffOptions(cmd, args, s)
			if err != nil {
				return err
			}
			return runoff(cmd, s, o)
		},
	}
	f := cmd.Flags()
	f.String("plan", "", "also write the plan as a drawing, an SVG `FILE`")
	f.Bool("json", false, "write the result as JSON, in metres and degrees, instead of text")
	f.String("units", "", "units to show: `m` (metres) or ft (feet and inches); left out, those of the plot")
	f.String("hollows", hollowWords[0], "before water is followed off the plot, hollows `fill` and run over, or are let out by trenches (breach)")
	complete(cmd, "units", unitWords...)
	complete(cmd, "hollows", hollowWords...)
	addStorm(cmd)
	addColumns(cmd)
	return cmd
}

// hollowWords are the values of --hollows.
var hollowWords = []string{"fill", "breach"}

// toRunoffOptions turns words and flags into options.
func toRunoffOptions(cmd *cobra.Command, args []string, s Streams) (o assessOptions, err error) {
	f := cmd.Flags()
	o.plot = "."
	if len(args) > 0 {
		o.plot = args[0]
	}
	units, errUnits := f.GetString("units")
	hollows, errHollows := f.GetString("hollows")
	var errPlan, errJSON, errRead, errStorm error
	o.storm, errStorm = stormYears(cmd)
	o.read, errRead = readOptions(cmd)
	o.plan, errPlan = f.GetString("plan")
	o.json, errJSON = f.GetBool("json")
	if err := errors.Join(errUnits, errHollows, errPlan, errJSON, errRead, errStorm); err != nil {
		return o, err
	}
	switch {
	case units != "" && !slices.Contains(unitWords, units):
		return o, wrongUse(cmd, "--units %q is not m or ft", units)
	case !slices.Contains(hollowWords, hollows):
		return o, wrongUse(cmd, "--hollows %q is not fill or breach", hollows)
	case f.Changed("plan") && !hasExtension(o.plan, ".svg"):
		return o, wrongUse(cmd, "--plan %q does not end in .svg", o.plan)
	}
	o.breach = hollows == "breach"
	o.units, o.width = geodata.Units(units), width(s.Out)
	o.color, err = colored(cmd, s, s.Out)
	return o, err
}

func runoff(cmd *cobra.Command, s Streams, o assessOptions) error {
	if o.plan != "" {
		if err := checkTarget(o.plan); err != nil {
			return err
		}
	}
	if len(o.storm) > 0 {
		if err := playStorm(cmd.Context(), s, o, o.storm); err != nil {
			return explain(s, err)
		}
	}
	a, units, err := decide(cmd.Context(), s, o)
	if err != nil {
		return explain(s, err)
	}
	if o.units == "" {
		o.units = units
	}
	var drawing bytes.Buffer
	var files plotfolder.Staged
	defer files.Discard()
	if o.plan != "" {
		if err := plan.SVG(&drawing, a, plan.Options{Units: o.units}); err != nil {
			return fmt.Errorf("make %s: %w", o.plan, err)
		}
		if err := files.Add(o.plan, drawing.Bytes()); err != nil {
			return err
		}
	}
	if err := printWater(cmd.OutOrStdout(), a, o); err != nil {
		return err
	}
	if err := cmd.Context().Err(); err != nil { // interrupted while it was made
		return err
	}
	if err := files.Commit(); err != nil {
		return err
	}
	if o.plan != "" {
		fmt.Fprintf(s.Err, "crossfall: wrote %s\n", o.plan)
	}
	return nil
}

// water is the part of an assessment that runoff gives as JSON, with the keys
// that the whole has.
type water struct {
	SchemaVersion int                 `json:"schema_version"`
	Name          string              `json:"name"`
	Frame         siting.Frame        `json:"frame"`
	Water         siting.Water        `json:"water"`
	Hollows       []siting.Hollow     `json:"hollows"`
	Beds          []bedWater          `json:"beds"`
	Findings      []geodata.Fault     `json:"findings"`
	Assumptions   []siting.Assumption `json:"assumptions"`
	Played        *siting.Storm       `json:"storm_played"` // null: none that still holds
}

// bedWater is one bed in that part.
type bedWater struct {
	Name  string           `json:"name"`
	Edge  frame.Class      `json:"edge"`
	Water *siting.BedWater `json:"water"`
}

// printWater gives the water of an assessment as text or as JSON.
func printWater(w io.Writer, a *siting.Assessment, o assessOptions) error {
	played := a.Water.Played
	if !o.json {
		t := term.Options{Units: o.units, Width: o.width, Color: o.color}
		if err := term.Runoff(w, a, t); err != nil || played == nil {
			return err
		}
		return term.Storm(w, played, t)
	}
	out := water{
		SchemaVersion: a.SchemaVersion, Name: a.Name, Frame: a.Frame, Water: a.Water,
		Hollows: a.Ground.Hollows, Beds: []bedWater{}, Findings: a.Findings, Assumptions: a.Assumptions,
		Played: played,
	}
	for _, b := range a.Beds {
		out.Beds = append(out.Beds, bedWater{b.Name, b.Edge, b.Water})
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(out)
}
