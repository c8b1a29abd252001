// Command crosslay joins the crews' channel to the shop: it asks each company its
// checks at shift change, reads what they answer, and brings faults to the shop.
package main

import (
	"errors"
	"fmt"
	"os"
	"runtime/debug"

	"github.com/alecthomas/kong"

	"crosslay/bot"
	"crosslay/config"
	"crosslay/internal/matrix"
	"crosslay/internal/sqlite"
)

// The exit codes.
const (
	exitOK    = 0
	exitWrong = 1 // it did not work, or something is wrong with what was checked
	exitUsage = 2 // the command line is wrong
	exitInUse = 3 // another crosslay has the database open
)

type cli struct {
	Try        tryCmd        `cmd:"" help:"Try it: a department on this terminal, nothing to set up."`
	Rehearse   rehearseCmd   `cmd:"" help:"Play a story, or days of made-up crews, and print what is said."`
	Read       readCmd       `cmd:"" help:"Show how replies would be read."`
	Vet        vetCmd        `cmd:"" help:"Check a department file."`
	Records    recordsCmd    `cmd:"" help:"Print what is on record."`
	Picture    pictureCmd    `cmd:"" help:"Draw a shift's board, an item's year, a month."`
	Inspection inspectionCmd `cmd:"" help:"Write the inspection record of an item or a company."`
	Serve      serveCmd      `cmd:"" help:"Run the bot."`
	Matrix     matrixCmd     `cmd:"" help:"Set up Matrix."`
	Slack      slackCmd      `cmd:"" help:"Show how to set up Slack."`
	Version    versionCmd    `cmd:"" help:"Print the version."`
}

func main() { os.Exit(run(os.Args[1:])) }

// run runs one command line and returns the exit code.
func run(args []string) int {
	var c cli
	code := -1
	parser := kong.Must(&c,
		kong.Name("crosslay"),
		kong.Description("Checks at shift change, defects to the shop, status to the officers. Begin with: crosslay try"),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Exit(func(n int) { code = n }),
	)
	ctx, err := parser.Parse(args)
	if code >= 0 { // help was asked for, and given
		return code
	}
	if err != nil {
		fmt.Fprintf(os.Stderr, "crosslay: %v\ncrosslay --help lists the commands.\n", err)
		return exitUsage
	}
	return report(ctx.Run())
}

// report tells the person at the terminal what went wrong, and picks the code.
func report(err error) int {
	if err == nil {
		return exitOK
	}
	fmt.Fprintf(os.Stderr, "crosslay: %v\n", err)
	var trouble *sqlite.Error
	if errors.As(err, &trouble) && trouble.Trouble == sqlite.InUse {
		return exitInUse
	}
	return exitWrong
}

// load reads a department file into what the engine runs on; without a path, the
// example department.
func load(path string) (bot.Setup, error) {
	d, err := config.Example(), error(nil)
	if path != "" {
		d, err = config.Load(path)
	}
	if err != nil {
		return bot.Setup{}, err
	}
	return bot.Setup{Dept: d.Dept, Book: d.Book, Rota: d.Rota, Ladders: d.Ladders}, nil
}

type versionCmd struct{}

// Run prints the version that the build recorded, and whether it can encrypt.
func (versionCmd) Run() error {
	version := "(devel)"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		version = info.Main.Version
	}
	_, err := fmt.Printf("crosslay %s, %s\n", version, encryption(matrix.Encrypts))
	return err
}

func encryption(has bool) string {
	if has {
		return "with encryption for Matrix"
	}
	return "without encryption for Matrix (go build -tags goolm has it)"
}
