// Command ratchetmark assesses load records and serves the app on this machine.
package main

import (
	"fmt"
	"io"
	"os"

	"ratchetmark/internal/serve"
)

// exitFailed is the exit code of a command that could not do its work.
const exitFailed = 2

// streams are what a command reads and writes.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// commands are the subcommands in the order of the usage text; run returns the exit code.
var commands = []struct {
	name, usage string
	run         func(args []string, s streams) int
}{
	{"assess", "assess [--json] [--guide FILE] FILE...   assess load records; - is standard input", runAssess},
	{"guide", "guide FILE                               print how the tables of a file are read, to correct and pass to assess", runGuide},
	{"damage", "damage FILE                              print the fatigue damage of a stress spectrum by an S-N curve", runDamage},
	{"lash", "lash FILE                                answer questions about lashing, one JSON object a line", runLash},
	{"serve", "serve                                    serve the app on 127.0.0.1:8080 (PORT to change)", runServe},
	{"calibrate", "calibrate [--lives N] [--seed S] [--json]  score the causes concluded of invented lives against the truth", runCalibrate},
	{"simulate", "simulate [--lives N] [--seed S] [--with LEVEL]   invent machine lives with the causes known, one JSON object a line", runSimulate},
}

func main() {
	os.Exit(dispatch(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}

func dispatch(args []string, s streams) int {
	for _, command := range commands {
		if len(args) > 0 && args[0] == command.name {
			return command.run(args[1:], s)
		}
	}
	fmt.Fprintln(s.err, "usage: ratchetmark COMMAND")
	for _, command := range commands {
		fmt.Fprintln(s.err, "  "+command.usage)
	}
	return exitFailed
}

func runServe(args []string, s streams) int {
	if err := serve.Run(s.out, os.Getenv("PORT")); err != nil {
		fmt.Fprintln(s.err, "ratchetmark serve:", err)
		return exitFailed
	}
	return 0
}
