package cli

import (
	"fmt"
	"io/fs"
	"strings"

	"crossfall/testdata"

	"github.com/spf13/cobra"
)

// newDemo writes the example plot.
func newDemo() *cobra.Command {
	return &cobra.Command{
		Use:   "demo DIR",
		Short: "Write an example plot to play with",
		Long: `Writes an example plot folder into DIR, which must be new or empty: an invented
hillside of about 18 by 24 metres with a shed, a hedge, a tree, services, marks
and 39 spot heights. Change its files and assess it again to see what follows.`,
		Example: `  crossfall demo example
  crossfall assess example`,
		Args: exactly(1, "one new or empty folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			files, err := demoFiles()
			if err != nil {
				return err
			}
			if err := writeFolder(args[0], files); err != nil {
				return err
			}
			return tellWritten(cmd, args[0], files, "crossfall assess "+shown(args[0]))
		},
	}
}

// demoFiles are the embedded files of the example plot.
func demoFiles() ([]file, error) {
	entries, err := fs.ReadDir(testdata.Hillside, "hillside")
	if err != nil {
		return nil, fmt.Errorf("read the example plot: %w", err)
	}
	var files []file
	for _, e := range entries {
		content, err := fs.ReadFile(testdata.Hillside, "hillside/"+e.Name())
		if err != nil {
			return nil, fmt.Errorf("read the example plot: %w", err)
		}
		files = append(files, file{e.Name(), content})
	}
	return files, nil
}

// shown is a path as it can be typed after a command.
func shown(path string) string {
	if strings.ContainsAny(path, " \t'&();$") {
		return `"` + path + `"`
	}
	return path
}

// tellWritten lists the files written and the command that comes next.
func tellWritten(cmd *cobra.Command, dir string, files []file, next string) error {
	out := cmd.OutOrStdout()
	if _, err := fmt.Fprintf(out, "Wrote into %s:\n", dir); err != nil {
		return err
	}
	for _, f := range files {
		if _, err := fmt.Fprintf(out, "  %s\n", f.name); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(out, "Next: %s\n", next)
	return err
}
