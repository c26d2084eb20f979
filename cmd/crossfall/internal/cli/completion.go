package cli

import (
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// shells lists the shells that completion is written for.
func shells() []string { return []string{"bash", "zsh", "fish", "powershell"} }

// newCompletion writes the script that lets a shell complete our words.
func newCompletion(root *cobra.Command) *cobra.Command {
	choice := "the name of a shell: " + strings.Join(shells(), ", ")
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Write a completion script for bash, zsh, fish or powershell",
		Long: `Writes a script that lets your shell complete commands, flags and file names
when you press Tab. SHELL is bash, zsh, fish or powershell.`,
		Example: `  source <(crossfall completion bash)                         this session only
  crossfall completion zsh > "${fpath[1]}/_crossfall"
  crossfall completion fish > ~/.config/fish/completions/crossfall.fish
  crossfall completion powershell | Out-String | Invoke-Expression`,
		Args:      exactly(1, choice),
		ValidArgs: shells(),
		RunE: func(cmd *cobra.Command, args []string) error {
			if !slices.Contains(shells(), args[0]) {
				return wrongUse(cmd, "%q is not %s%s", args[0], choice, didYouMean(args[0], shells()))
			}
			return writeCompletion(root, args[0], cmd.OutOrStdout())
		},
	}
}

func writeCompletion(root *cobra.Command, shell string, w io.Writer) error {
	switch shell {
	case "bash":
		return root.GenBashCompletionV2(w, true)
	case "zsh":
		return root.GenZshCompletion(w)
	case "fish":
		return root.GenFishCompletion(w, true)
	}
	return root.GenPowerShellCompletionWithDesc(w)
}
