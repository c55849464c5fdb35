package cli

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"

	"github.com/alecthomas/kong"
	"github.com/posener/complete"
)

// Flags are those of every program.
type Flags struct {
	Version    kong.VersionFlag `help:"Print which build this is."`
	Completion Completion       `predictor:"shell" placeholder:"SHELL" help:"Print what bash, zsh or fish reads to complete this command line."`
}

// Completion is a flag that prints a shell's completion script for the program and exits.
type Completion string

// shells maps a shell to its completion script, with PROGRAM standing for the program's
// name. The program prints completions when COMP_LINE is set, as bash does for
// `complete -C`.
var shells = map[string]string{
	"bash": "complete -C PROGRAM PROGRAM\n",
	"zsh":  "autoload -U +X bashcompinit && bashcompinit\ncomplete -C PROGRAM PROGRAM\n",
	"fish": `function __complete_PROGRAM
    set -lx COMP_LINE (commandline -cp)
    test -z (commandline -ct)
    and set COMP_LINE "$COMP_LINE "
    PROGRAM
end
complete -f -c PROGRAM -a "(__complete_PROGRAM)"
`,
}

// BeforeApply prints the script and exits, before kong checks for required arguments.
func (Completion) BeforeApply(ctx *kong.Context, at *kong.Path) error {
	shell, _ := ctx.FlagValue(at.Flag).(Completion)
	lines, ok := shells[string(shell)]
	if !ok {
		return fmt.Errorf("completion is for bash, zsh and fish, not %q", shell)
	}
	_, err := fmt.Fprint(ctx.Stdout, strings.ReplaceAll(lines, "PROGRAM", ctx.Model.Name))
	ctx.Exit(0)
	return err
}

// predictors complete the values of flags and arguments, by their `predictor` tag.
var predictors = map[string]complete.Predictor{
	"file":  complete.PredictFiles("*"),
	"dir":   complete.PredictDirs("*"),
	"job":   complete.PredictFunc(jobsOf),
	"shell": complete.PredictSet(slices.Sorted(maps.Keys(shells))...),
}

// jobsOf lists the jobs in the data folder that the command line selects.
func jobsOf(a complete.Args) (jobs []string) {
	flag := ""
	for i, word := range a.All {
		if dir, ok := strings.CutPrefix(word, "--data="); ok {
			flag = dir
		} else if word == "--data" && i+1 < len(a.All) {
			flag = a.All[i+1]
		}
	}
	dir, err := DataDir(flag)
	if err != nil {
		return nil
	}
	files, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	for _, f := range files {
		if name, ok := strings.CutSuffix(f.Name(), ".job"); ok {
			jobs = append(jobs, name)
		}
	}
	return jobs
}
