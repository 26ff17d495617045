package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/alecthomas/kong"
)

// The exit codes, part of the contract with scripts.
const (
	exitDone     = 0
	exitStop     = 1
	exitBadInput = 2
	exitFailure  = 3
)

// Program is one run of the command line.
type Program struct {
	Args   []string
	Stdin  io.Reader
	Stdout io.Writer
	Stderr io.Writer
}

// commands is the whole command line; field order is the order of the help.
type commands struct {
	Choose  chooseCommand  `cmd:"" help:"Which battery should I buy? Every battery you look at, for these devices, this route and these habits; and a search for the best whole rig."`
	Prove   proveCommand   `cmd:"" help:"Is this used module healthy? Capacity, resistance, imbalance and loss of every group, from any meter's log; and a test plan."`
	Fit     fitCommand     `cmd:"" help:"What do I set on each device? Safe window, layers, settings and findings."`
	Wire    wireCommand    `cmd:"" help:"Which cable, fuse, relay, resistor? Conductors, protection, panel strings, parts and commissioning."`
	Drill   drillCommand   `cmd:"" help:"What happens when something fails? Every fault and every pair, played through scenes of use."`
	Travel  travelCommand  `cmd:"" help:"Does it carry me through the year? Sun, weather, habits and frost along the route, minute by minute."`
	Keep    keepCommand    `cmd:"" help:"How is it doing, and what do I do now? The logbook: readings, drift, balance, capacity, life left, today's list."`
	Book    bookCommand    `cmd:"" help:"Put it all on paper: one HTML file to print, PDF where a Chromium is installed."`
	Home    homeCommand    `cmd:"" help:"Where does this rig stand? What to do today, what is between it and being connected, each stage in a line."`
	History historyCommand `cmd:"" help:"What became of the rig file: every version that is kept, undo, redo, and any version put back."`
	Compare compareCommand `cmd:"" help:"What changed between two versions of a rig, or between two rigs, and what it did to each result."`
	New     newCommand     `cmd:"" help:"A new rig from a dozen plain questions, with I-do-not-know among the answers: a commented rig.yaml, its findings and what to do next."`
	Serve   serveCommand   `cmd:"" help:"Show a rig as a web page on this machine."`
	Tour    tourCommand    `cmd:"" help:"Unpack the example rigs to a new folder and serve the first draft of Curlew."`
	Figure  figureCommand  `cmd:"" help:"The handbook: every formula, its source and its checks."`
	Version versionCommand `cmd:"" help:"Print the version, what it was built from, and for which machine."`

	Passphrase passphraseCommand `cmd:"" help:"Set the passphrase of serve --lan on this machine; only its hash is kept."`
	Completion completionCommand `cmd:"" help:"Print the script that lets a shell complete commands, flags and rigs: bash, zsh or fish."`
	Man        manCommand        `cmd:"" help:"Print a manual page, for a formatter: ampstead man fit | man -l - shows it."`
	Complete   completeCommand   `cmd:"" hidden:"" help:"Answer a shell that completes a line."`
}

const about = `Ampstead helps you use a salvaged electric-car module as the house battery of a vehicle.
RIG is a folder that holds rig.yaml, or the file; the default is the current folder.
Exit status: 0 nothing worse than care, 1 a stop finding, 2 bad usage or input, 3 a failure or interruption.`

// exit is how kong's help leaves the parser: recovered in parse.
type exit int

// run is what a command gets to work with.
type run struct {
	*Program
	ctx context.Context
}

// Run parses the arguments, runs the command and returns the exit code.
func (p *Program) Run(ctx context.Context) (code int) {
	defer func() {
		if failure := recover(); failure != nil {
			fmt.Fprintf(p.Stderr, "ampstead: internal failure: %v\nNothing was written. Please report this with the command you gave.\n", failure)
			code = exitFailure
		}
	}()
	command, code, err := p.parse()
	if err != nil {
		return p.fail(badInput(err))
	}
	if command == nil {
		return code
	}
	err = command.Run(&run{p, ctx})
	if err == nil && ctx.Err() != nil {
		err = ctx.Err()
	}
	return p.fail(err)
}

func (p *Program) parse() (command *kong.Context, code int, err error) {
	defer func() {
		if e, ok := recover().(exit); ok {
			command, code, err = nil, int(e), nil
		}
	}()
	parser, err := p.parser()
	if err != nil {
		return nil, exitFailure, err
	}
	args := p.Args
	if len(args) == 0 {
		args = []string{"--help"}
	}
	command, err = parser.Parse(args)
	return command, exitDone, err
}

func (p *Program) parser() (*kong.Kong, error) {
	return kong.New(&commands{}, kong.Name("ampstead"), kong.Description(about),
		kong.Writers(p.Stdout, p.Stderr), kong.Exit(func(code int) { panic(exit(code)) }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}))
}

// fail reports err once and returns the exit code it calls for.
func (p *Program) fail(err error) int {
	if err == nil {
		return exitDone
	}
	if errors.Is(err, errStop) {
		return exitStop
	}
	if slices.Contains(p.Args, "--json") {
		writeJSON(p.Stdout, errorReport(err))
	} else {
		p.explain(err)
	}
	if errors.As(err, new(*inputError)) {
		return exitBadInput
	}
	return exitFailure
}
