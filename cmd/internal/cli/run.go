package cli

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"crossgrain/tables/problem"
)

// Run runs one command line (without the program's name) and returns the exit code, see the
// package comment. Results are written to stdout, remarks and errors to stderr. A panic is told
// in words and gives exit code 3.
func Run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	defer func() {
		if p := recover(); p != nil {
			code = recovered(stderr, args, p)
		}
	}()
	root := newRoot(env{stdin: stdin, stdout: stdout, stderr: stderr})
	if args == nil {
		args = []string{} // cobra would otherwise read the arguments of the process
	}
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(stdout)
	root.SetErr(stderr)
	return tell(stderr, root.ExecuteContext(ctx))
}

const about = `crossgrain computes what humidity does to a painted wooden panel that something
holds back: movement, warp, the load on battens, joins and splits, and how far
the humidity may go before a part reaches its limit.

It calculates from a description and has not seen the panel. Supports, splits
and loan terms are decided by a structural conservator after examination.`

func newRoot(e env) *cobra.Command {
	root := &cobra.Command{
		Use:           "crossgrain",
		Short:         "structural analysis of painted wooden panels",
		Long:          about,
		Version:       Version(),
		Example:       "  crossgrain assess\n  crossgrain start panel.toml\n  crossgrain assess panel.toml --rh 40..60 --out report",
		Args:          cobra.ArbitraryArgs,
		SilenceErrors: true,
		SilenceUsage:  true,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(cmd, args[0])
			}
			if clicked() {
				return (&pageOptions{}).run(cmd, e, clickedDir())
			}
			return cmd.Help()
		},
	}
	root.SetVersionTemplate("crossgrain {{.Version}}\n")
	root.SetFlagErrorFunc(flagHint)
	root.CompletionOptions.HiddenDefaultCmd = true
	root.AddCommand(
		newAssess(e), newEMC(e), newFault(e), newIntake(e), newLoan(e), newPage(e), newPaper(e), newRecord(e), newStart(e), newSurvey(e), newTreat(e), newVerify(e), newWood(e),
	)
	root.SetHelpCommand(newHelp())
	return root
}

func unknownCommand(root *cobra.Command, name string) error {
	var names []string
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	hint := "commands: " + strings.Join(names, ", ")
	if near := problem.Nearest(name, names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	return badUsage(root, hint, "unknown command %q", name)
}

// newHelp is "crossgrain help COMMAND".
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "help about a command",
		Args:  cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return cmd.Root().Help()
			}
			c, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 || c == cmd.Root() {
				return unknownCommand(cmd.Root(), args[0])
			}
			return c.Help()
		},
	}
}
