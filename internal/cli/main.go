package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"time"

	"github.com/alecthomas/kong"

	"matchmark/internal/bench"
	"matchmark/internal/machine"
)

// Surroundings is all that a command has of the outside world.
type Surroundings struct {
	In      io.Reader
	Out     io.Writer
	Err     io.Writer
	Now     func() time.Time
	DataDir string                                  // where the shop's file lies when none is named
	By      string                                  // author of what is recorded here
	Device  string                                  // name of this device
	Pages   func(*bench.Shop, Serving) http.Handler // the web pages

	// BookFile writes the book of a machine as one file that stands alone.
	BookFile func(context.Context, *bench.Shop, machine.MachineID) ([]byte, error)
}

// grammar is all commands. Options that every command takes stand on top.
type grammar struct {
	Book    string `help:"File that keeps the machines." placeholder:"FILE" env:"MATCHMARK_BOOK"`
	Machine string `short:"m" name:"on" help:"Machine, by its id. Not needed where the file holds one." placeholder:"ID"`
	JSON    bool   `name:"json" help:"Answer in JSON (docs/JSON.md)."`

	Demo       demoCmd     `cmd:"" help:"Load the demo machine, run the main job and serve it."`
	Serve      serveCmd    `cmd:"" help:"Serve the pages."`
	Pair       pairCmd     `cmd:"" help:"Make a code that lets one phone or other device in."`
	Devices    devicesCmd  `cmd:"" help:"Devices that were let in: list them, or let one out."`
	MachineCmd machineCmd  `cmd:"" name:"machine" help:"Start, list or show machines."`
	Log        logCmd      `cmd:"" help:"Add to the log, or show it."`
	Judge      judgeCmd    `cmd:"" help:"Verdicts on the checks."`
	Decide     decideCmd   `cmd:"" help:"The best consistent set of remedies."`
	Papers     papersCmd   `cmd:"" help:"Papers that leave the bench: orders to shops, the buying list, the book as one file."`
	Labels     labelsCmd   `cmd:"" help:"Labels of trays and tie-on tags of parts, as PDF."`
	Identify   identifyCmd `cmd:"" help:"From sizes to the standard part: bearing, seal, thread, gear …"`
	Order      orderCmd    `cmd:"" help:"The whole order, to its end."`
	Next       nextCmd     `cmd:"" help:"What can be done now, and what is held."`
	Why        whyCmd      `cmd:"" help:"What stands before a step."`
	Check      checkCmd    `cmd:"" help:"Prove that the file is whole."`
	Kit        kitCmd      `cmd:"" help:"List kits, or check a kit file."`
	Reckon     reckonCmd   `cmd:"" help:"Reckon one figure of the trade, with its working and its source."`
}

// run is what a command gets.
type run struct {
	Surroundings
	ctx  context.Context
	book string
	on   string
	json bool
}

// Main runs one command line and gives its exit code: 0 done, 1 the command
// failed, 2 the command line itself was wrong.
func Main(ctx context.Context, args []string, s Surroundings) int {
	var g grammar
	code := -1
	parser, err := kong.New(&g, kong.Name("matchmark"),
		kong.Description("Remembers how a machine came apart, finds what is worn, and sees that it goes back right."),
		kong.Writers(s.Out, s.Err), kong.Exit(func(c int) { code = c }),
		kong.UsageOnError(), kong.ConfigureHelp(kong.HelpOptions{Compact: true}))
	if err != nil {
		fmt.Fprintln(s.Err, "matchmark:", err)
		return 2
	}
	command, err := parser.Parse(args)
	if code >= 0 { // help was asked for
		return code
	}
	if err != nil {
		fmt.Fprintf(s.Err, "matchmark: %v. `matchmark --help` lists the commands\n", err)
		return 2
	}
	r := &run{Surroundings: s, ctx: ctx, book: g.Book, on: g.Machine, json: g.JSON}
	if err := command.Run(r); err != nil {
		var told *toldError
		if !errors.As(err, &told) {
			fmt.Fprintln(s.Err, "matchmark:", err)
		}
		return 1
	}
	return 0
}

// toldError is a failure whose words were already written.
type toldError struct{ what string }

func (e *toldError) Error() string { return e.what }
