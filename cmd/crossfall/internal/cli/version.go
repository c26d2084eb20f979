package cli

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
)

// newVersion says which build this is.
func newVersion() *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "Say which build this is",
		Long:    "Says which build of Crossfall this is, for a report of something wrong.",
		Example: "  crossfall version",
		Args:    atMost(0, "no words"),
		RunE: func(cmd *cobra.Command, args []string) error {
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "crossfall version %s\n", versionLine())
			return err
		},
	}
}

// versionLine is the version the build was stamped with, with the compiler and
// the system it was built for.
func versionLine() string {
	version, revision := "(devel)", ""
	if info, ok := debug.ReadBuildInfo(); ok {
		if info.Main.Version != "" {
			version = info.Main.Version
		}
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				revision = " " + s.Value[:min(12, len(s.Value))]
			}
		}
	}
	system := strings.Join([]string{runtime.GOOS, runtime.GOARCH}, "/")
	return version + revision + " " + runtime.Version() + " " + system
}
