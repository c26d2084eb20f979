package cli

import (
	"crossfall/geodata/plotfolder"

	"github.com/spf13/cobra"
)

// addColumns adds the flag that names the columns of heights without a header.
func addColumns(cmd *cobra.Command) {
	cmd.Flags().StringSlice("columns", nil, "what the columns of a heights file without a header hold, in their order: such as `point,north,east,height,note`; - passes one over")
}

// readOptions are the options of reading that a command was given.
func readOptions(cmd *cobra.Command) (plotfolder.Options, error) {
	columns, err := cmd.Flags().GetStringSlice("columns")
	return plotfolder.Options{Columns: columns}, err
}
