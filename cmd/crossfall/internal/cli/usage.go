package cli

import (
	"context"
	"errors"
	"fmt"
	"io"

	"crossfall/geodata"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// usageError is a wrong command line. It is told on one line with the help to
// turn to.
type usageError struct {
	what string
	help string // the command whose help tells what would be right
}

func (e usageError) Error() string { return e.what + "; see " + e.help + " --help" }

// wrongUse makes a usage error of a command.
func wrongUse(cmd *cobra.Command, format string, a ...any) error {
	return usageError{what: fmt.Sprintf(format, a...), help: cmd.CommandPath()}
}

// told writes what an error means and gives its exit code.
func told(w io.Writer, root *cobra.Command, err error) int {
	var usage usageError
	switch {
	case err == nil:
		return codeDone
	case errors.Is(err, errStopped):
		return codeStopped
	case errors.Is(err, errTold):
		return codeFailed
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(w, "crossfall: stopped; nothing was written")
		return codeFailed
	case errors.As(err, &usage):
		say(w, usage)
		return codeUsage
	}
	if word, ok := unknownCommand(err); ok {
		say(w, wrongUse(root, "unknown command %q%s", word, didYouMean(word, commandNames(root))))
		return codeUsage
	}
	say(w, err)
	return codeFailed
}

// unknownCommand reads the word out of cobra's error, which has no type.
func unknownCommand(err error) (word string, ok bool) {
	n, _ := fmt.Sscanf(err.Error(), "unknown command %q", &word)
	return word, n == 1
}

// flagFault words what pflag found wrong with a flag.
func flagFault(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	if errors.As(err, &unknown) {
		name := unknown.GetSpecifiedName()
		if unknown.GetSpecifiedShortnames() != "" {
			return wrongUse(cmd, "unknown flag -%s", name)
		}
		return wrongUse(cmd, "unknown flag --%s%s", name, didYouMean("--"+name, flagNames(cmd)))
	}
	var bare *pflag.ValueRequiredError
	if errors.As(err, &bare) {
		return wrongUse(cmd, "--%s needs a value", bare.GetFlag().Name)
	}
	return wrongUse(cmd, "%v", err)
}

// atMost and exactly check the number of words after a command.
func atMost(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > n {
			return wrongUse(cmd, "%q is one word too many: %s takes %s", args[n], cmd.CommandPath(), what)
		}
		return nil
	}
}

func exactly(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) < n {
			return wrongUse(cmd, "%s needs %s", cmd.CommandPath(), what)
		}
		return atMost(n, what)(cmd, args)
	}
}

func commandNames(root *cobra.Command) []string {
	var names []string
	for _, c := range root.Commands() {
		if !c.Hidden {
			names = append(names, c.Name())
		}
	}
	return names
}

func flagNames(cmd *cobra.Command) []string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, "--"+f.Name) })
	return names
}

// didYouMean suggests the nearest word, or nothing when none is near.
func didYouMean(word string, among []string) string {
	if near := geodata.Nearest(word, among); near != "" {
		return fmt.Sprintf(": did you mean %s?", near)
	}
	return ""
}
