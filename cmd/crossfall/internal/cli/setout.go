package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"crossfall/cmd/crossfall/internal/term"
	"crossfall/cmd/crossfall/internal/words"
	"crossfall/geodata"
	"crossfall/geodata/plotfolder"
	"crossfall/siting"
	"crossfall/siting/setout"

	"github.com/spf13/cobra"
)

// setoutOptions is what setout was asked to do.
type setoutOptions struct {
	assessOptions
	how words.Taping
	out []string // files to write
}

// newSetout is the sheet that puts beds on the ground.
func newSetout(s Streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "setout [PLOT]",
		Short: "Put the beds on the ground: by tape, string and level, for one person and a helper",
		Long: `Reads a plot, decides its beds as assess does, and gives a sheet to set them out
by: the two ends of each row of beds by two tapes from marks, the beds along a
string by running distances, squared by equal diagonals, the pegs along each
board, and the height of every board against one datum peg, in order, with boxes
to tick.

Where marks are missing, stand too near each other or do not reach every row, it
says where to set canes to tape from, and works the sheet with them. Beds that
must not be built are left out.

PLOT is a plot folder, or a single file of heights; left out, it is the folder
you are in.`,
		Example: `  crossfall setout garden
  crossfall setout garden --tape slope --units ft
  crossfall setout garden --every-point --out garden-setout.html
  crossfall setout garden --out points.csv --out points.dxf`,
		Args: atMost(1, "one plot folder or file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := toSetoutOptions(cmd, args, s)
			if err != nil {
				return err
			}
			return setOut(cmd, s, o)
		},
	}
	f := cmd.Flags()
	f.String("tape", tapeWords[0], "how tapes are held: `level`, or on the slope (slope), pulled tight along the ground")
	f.Bool("every-point", false, "also give every corner and peg by two tapes")
	f.StringArray("out", nil, "also write a `FILE`, more than once if you like: the sheet to print as .html; the points as .csv, .geojson, .gpx or .dxf")
	f.Bool("json", false, "write the sheet as JSON, in metres, instead of text")
	f.String("why", "", "print how one figure was come by, such as the `ID` setting-out.row-1.left-end")
	f.String("units", "", "units to show: `m` (metres) or ft (feet and inches); left out, those of the plot")
	complete(cmd, "units", unitWords...)
	complete(cmd, "tape", tapeWords...)
	addColumns(cmd)
	return cmd
}

// tapeWords are the values of --tape.
var tapeWords = []string{"level", "slope"}

// toSetoutOptions turns words and flags into options.
func toSetoutOptions(cmd *cobra.Command, args []string, s Streams) (o setoutOptions, err error) {
	f := cmd.Flags()
	o.plot = "."
	if len(args) > 0 {
		o.plot = args[0]
	}
	units, errUnits := f.GetString("units")
	tape, errTape := f.GetString("tape")
	var errEvery, errOut, errJSON, errWhy, errRead error
	o.how.Every, errEvery = f.GetBool("every-point")
	o.out, errOut = f.GetStringArray("out")
	o.json, errJSON = f.GetBool("json")
	o.why, errWhy = f.GetString("why")
	o.read, errRead = readOptions(cmd)
	if err := errors.Join(errUnits, errTape, errEvery, errOut, errJSON, errWhy, errRead); err != nil {
		return o, err
	}
	switch {
	case units != "" && !slices.Contains(unitWords, units):
		return o, wrongUse(cmd, "--units %q is not m or ft", units)
	case !slices.Contains(tapeWords, tape):
		return o, wrongUse(cmd, "--tape %q is not level or slope", tape)
	case f.Changed("why") && o.json:
		return o, wrongUse(cmd, "--why prints text and goes without --json")
	}
	for i, path := range o.out {
		if !hasExtension(path, sheetFiles...) {
			return o, wrongUse(cmd, "--out %q does not end in .html, .csv, .geojson, .gpx or .dxf", path)
		}
		if slices.Contains(o.out[:i], path) {
			return o, wrongUse(cmd, "--out %q is named twice", path)
		}
	}
	o.how.Slope = tape == "slope"
	o.units, o.width = geodata.Units(units), width(s.Out)
	o.color, err = colored(cmd, s, s.Out)
	return o, err
}

func setOut(cmd *cobra.Command, s Streams, o setoutOptions) error {
	for _, path := range o.out {
		if err := checkTarget(path); err != nil {
			return err
		}
	}
	a, units, err := decide(cmd.Context(), s, o.assessOptions)
	if err != nil {
		return explain(s, err)
	}
	if o.units == "" {
		o.units = units
	}
	if len(a.SettingOut.Beds) == 0 && o.why == "" && !o.json {
		return noBeds(a)
	}
	var files plotfolder.Staged
	defer files.Discard()
	for _, path := range o.out {
		var content bytes.Buffer
		if err := sheetFile(&content, path, a, o); err != nil {
			return fmt.Errorf("make %s: %w", path, err)
		}
		if err := files.Add(path, content.Bytes()); err != nil {
			return err
		}
	}
	if err := printSheet(cmd, a, o); err != nil {
		return err
	}
	if err := cmd.Context().Err(); err != nil { // interrupted while it was made
		return err
	}
	if err := files.Commit(); err != nil {
		return err
	}
	for _, path := range o.out {
		fmt.Fprintf(s.Err, "crossfall: wrote %s\n", path)
	}
	return stops(s, a)
}

// noBeds tells why there is nothing to set out.
func noBeds(a *siting.Assessment) error {
	why := "no bed was placed: draw one, or wish for some under beds.count in site.toml"
	if n := len(a.SettingOut.Left); n > 0 {
		why = "none of its beds may be built; assess tells why"
	}
	for _, f := range a.Findings {
		if f.Code == "beds-do-not-fit" {
			why += " (" + f.Message + ")"
		}
	}
	return fmt.Errorf("there is nothing to set out: %s", why)
}

// sheet is the part of an assessment that setout gives as JSON, with the keys
// that the whole has.
type sheet struct {
	SchemaVersion int          `json:"schema_version"`
	Name          string       `json:"name"`
	Frame         siting.Frame `json:"frame"`
	SettingOut    setout.Sheet `json:"setting_out"`
}

// printSheet gives the sheet as text or as JSON, or the working of one figure.
func printSheet(cmd *cobra.Command, a *siting.Assessment, o setoutOptions) error {
	switch {
	case o.why != "":
		return why(cmd, a, o.assessOptions)
	case o.json:
		e := json.NewEncoder(cmd.OutOrStdout())
		e.SetEscapeHTML(false)
		e.SetIndent("", "  ")
		return e.Encode(sheet{a.SchemaVersion, a.Name, a.Frame, a.SettingOut})
	}
	return term.SetOut(cmd.OutOrStdout(), a, o.how, term.Options{Units: o.units, Width: o.width, Color: o.color})
}
