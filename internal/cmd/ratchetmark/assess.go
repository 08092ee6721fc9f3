package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/digest"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// exitBlocked is the exit code of an assessment with a finding that withholds
// a conclusion.
const exitBlocked = 1

// runAssess reads the files and prints a dossier for each machine.
func runAssess(args []string, s streams) int {
	flags := flag.NewFlagSet("assess", flag.ContinueOnError)
	flags.SetOutput(s.err)
	asJSON := flags.Bool("json", false, "print one JSON object a line, one for each machine")
	options := intake.GuidesOf()
	flags.Func("guide", "read tables with the heading this `FILE` names as it says; may be given several times", func(name string) error {
		return addGuides(&options, name)
	})
	flags.Usage = func() {
		fmt.Fprintln(s.err, "usage: ratchetmark assess [--json] [--guide FILE] FILE...   (- is standard input)")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return exitFailed
	}
	if flags.NArg() == 0 {
		flags.Usage()
		return exitFailed
	}
	var batches []batch.Batch
	failed := false
	for _, name := range flags.Args() {
		batch, err := readFile(name, s.in, options)
		if err != nil {
			sayError(s.err, err)
			failed = true
			continue
		}
		batches = append(batches, batch)
	}
	blocked, err := printAll(s.out, dossier.From(batches), *asJSON)
	switch {
	case err != nil:
		sayError(s.err, err)
		return exitFailed
	case failed:
		return exitFailed
	case blocked:
		return exitBlocked
	}
	return 0
}

func readFile(name string, stdin io.Reader, options intake.Options) (batch.Batch, error) {
	if name == "-" {
		return digest.Read("standard input", stdin, options, nil)
	}
	f, err := os.Open(name)
	if err != nil {
		return batch.Batch{}, err
	}
	defer f.Close()
	return digest.Read(f.Name(), f, options, nil)
}

// sayError prints an error of assess.
func sayError(w io.Writer, err error) { sayErrorOf(w, "assess", err) }

// sayErrorOf prints an error of a command, and the hint of a refusal on a line
// of its own.
func sayErrorOf(w io.Writer, command string, err error) {
	fmt.Fprintln(w, "ratchetmark "+command+":", err)
	var refusal *record.Refusal
	if errors.As(err, &refusal) && refusal.Hint != "" {
		fmt.Fprintln(w, "  hint:", refusal.Hint)
	}
}

// printAll prints the dossiers and reports whether any is blocked.
func printAll(w io.Writer, all []dossier.Dossier, asJSON bool) (blocked bool, err error) {
	for i := range all {
		d := &all[i]
		blocked = blocked || d.Blocked()
		if asJSON {
			err = dossier.WriteJSON(w, d)
		} else {
			if i > 0 {
				fmt.Fprintln(w)
			}
			err = dossier.WriteText(w, d)
		}
		if err != nil {
			return blocked, err
		}
	}
	if !asJSON {
		err = dossier.WriteRanking(w, all)
	}
	return blocked, err
}
