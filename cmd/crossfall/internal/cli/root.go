package cli

import (
	"io"
	"slices"

	"github.com/spf13/cobra"
)

// newRoot builds the tree of commands. out takes the results.
func newRoot(s Streams, out io.Writer) *cobra.Command {
	root := &cobra.Command{
		Use:   "crossfall",
		Short: "Where raised beds can go on a sloping plot, and how they must be held",
		Long: `Crossfall tells where raised no-dig beds can go on a sloping plot, which way
round, whether they need board sides, how deep pegs and sunken edges must go,
how much to buy and carry, and where winter rain will run: from a handful of
spot heights, with reasons, bands of uncertainty and cautions.

Without a command, on a terminal, the page is opened on the folder you are in.`,
		Example: `  crossfall assess heights.csv          decide from a list of heights alone
  crossfall runoff garden               follow winter rain over the plot
  crossfall page garden                 the same in the browser, on laptop and phone
  crossfall setout garden               put the beds on the ground by tape and string
  crossfall start garden                ask for wishes and surroundings
  crossfall assess garden --report garden.html
  crossfall demo example                write an example plot to play with`,
		RunE: func(cmd *cobra.Command, args []string) error {
			if !isTerminal(s.Out) { // nobody is there to look at a page
				return cmd.Help()
			}
			return openPage(cmd.Context(), s, pageOptions{plot: ".", browser: true})
		},
		SilenceUsage:  true,
		SilenceErrors: true,
		Version:       versionLine(),
	}
	root.SetIn(s.In)
	root.SetOut(out)
	root.SetErr(s.Err)
	root.SetFlagErrorFunc(flagFault)
	root.CompletionOptions.DisableDefaultCmd = true
	root.PersistentFlags().String("color", "auto", "mark text with colour: auto, always or never")
	complete(root, "color", colorWords...)
	root.AddCommand(newAssess(s), newWalk(s), newRunoff(s), newSetout(s), newStart(s), newPage(s), newDemo(), newCompletion(root), newVersion())
	root.SetHelpCommand(newHelp(root))
	return root
}

// complete offers the values of a flag to the shell.
func complete(cmd *cobra.Command, flag string, values ...string) {
	offer := func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return values, cobra.ShellCompDirectiveNoFileComp
	}
	if err := cmd.RegisterFlagCompletionFunc(flag, offer); err != nil {
		panic(err) // the flag does not exist: a slip in this package
	}
}

// newHelp is the help command, which refuses a command it does not know.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:     "help [COMMAND]",
		Short:   "Explain a command",
		Long:    "Explains a command, its flags and how it is used.",
		Example: "  crossfall help assess",
		Args:    atMost(1, "the name of one command"),
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return commandNames(root), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return root.Help()
			}
			i := slices.IndexFunc(root.Commands(), func(c *cobra.Command) bool { return c.Name() == args[0] })
			if i < 0 {
				return wrongUse(root, "unknown command %q%s", args[0], didYouMean(args[0], commandNames(root)))
			}
			explained := root.Commands()[i]
			explained.InitDefaultHelpFlag() // so that help tells what --help tells
			return explained.Help()
		},
	}
}
