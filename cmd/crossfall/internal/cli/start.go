package cli

import (
	"path/filepath"

	"crossfall/geodata"

	"github.com/spf13/cobra"
)

// startOptions is what start was asked to do.
type startOptions struct {
	dir      string
	defaults bool // ask nothing
}

// newStart asks for the wishes and surroundings and writes a plot folder.
func newStart(s Streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "start DIR",
		Short: "Ask for wishes and surroundings and write a plot folder",
		Long: `Asks for the place, the ground, the beds wanted, the boards and compost on sale
and the services near the plot, and writes the answers into DIR, which must be
new or empty: site.toml with what you said, and heights.csv and features.csv with
an explanation and no data. They are plain text: change them in any editor.

Nothing is written before the last answer. Figures that you leave out are not
made up: the usual ones are taken and named beside every result.`,
		Example: `  crossfall start garden
  crossfall start --defaults garden     write the files without asking`,
		Args: exactly(1, "one new or empty folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o, err := toStartOptions(cmd, args)
			if err != nil {
				return err
			}
			return start(cmd, s, o)
		},
	}
	cmd.Flags().Bool("defaults", false, "take every default and ask nothing")
	return cmd
}

// toStartOptions turns words and flags into options.
func toStartOptions(cmd *cobra.Command, args []string) (startOptions, error) {
	defaults, err := cmd.Flags().GetBool("defaults")
	return startOptions{dir: args[0], defaults: defaults}, err
}

func start(cmd *cobra.Command, s Streams, o startOptions) error {
	if err := checkNewFolder(o.dir); err != nil {
		return err
	}
	site := unsaid(o.dir)
	if !o.defaults {
		i := interview{asker: newAsker(cmd.Context(), s.In, s.Err), site: site}
		if err := i.run(); err != nil {
			return err
		}
		site = i.site
	}
	files := []file{
		{"site.toml", siteTOML(site)},
		{"heights.csv", blankHeights(site.Units)},
		{"features.csv", blankFeatures(site.Units)},
	}
	if err := writeFolder(o.dir, files); err != nil {
		return err
	}
	return tellWritten(cmd, o.dir, files,
		"write your spot heights into "+filepath.Join(o.dir, "heights.csv")+", then: crossfall assess "+shown(o.dir))
}

// unsaid is a site about which nothing has been said but the folder's name.
func unsaid(dir string) geodata.Site {
	name := filepath.Base(dir)
	if abs, err := filepath.Abs(dir); err == nil {
		name = filepath.Base(abs)
	}
	site := geodata.Site{Name: name, Units: "m", Services: map[geodata.Carrier]string{}}
	for _, c := range geodata.Carriers() {
		site.Services[c] = serviceUnknown
	}
	return site
}
