package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"flag"
	"fmt"

	"ratchetmark/internal/simulate"
)

const simulateUsage = "usage: ratchetmark simulate [--lives N] [--seed S] [--with LEVEL]   (LEVEL: bands, readings, custody, events or asked; else they take turns)"

// levels are the names of how much of a life is written down.
var levels = map[string]simulate.Availability{
	"bands": simulate.PeakAndBands, "readings": simulate.TwoReadings, "custody": simulate.WithCustody, "events": simulate.WithEvents, "asked": simulate.WithAsked,
}

// mostLives keeps a slip of the finger from filling a disk.
const mostLives = 1_000_000

// runSimulate prints invented lives, one JSON object a line: the case, as
// assess reads it, the truth, and how much of it is written down.
func runSimulate(args []string, s streams) int {
	flags := flag.NewFlagSet("simulate", flag.ContinueOnError)
	flags.SetOutput(s.err)
	lives := flags.Int("lives", 1000, "how many lives, 1 to 1000000")
	seed := flags.Uint64("seed", 1, "the same seed gives the same lives")
	with := flags.String("with", "", "write as much of every life down as this `LEVEL`")
	flags.Usage = func() {
		fmt.Fprintln(s.err, simulateUsage)
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return exitFailed
	}
	level, known := levels[*with]
	if flags.NArg() > 0 || *with != "" && !known || *lives < 1 || *lives > mostLives {
		flags.Usage()
		return exitFailed
	}
	g, buffer := simulate.New(*seed), bufio.NewWriter(s.out)
	life := g.Life
	if known {
		life = func(i int) simulate.Life { return g.With(i, level) }
	}
	out := json.NewEncoder(buffer)
	for i := range *lives {
		if err := out.Encode(life(i)); err != nil {
			fmt.Fprintln(s.err, "ratchetmark simulate:", err)
			return exitFailed
		}
	}
	if err := buffer.Flush(); err != nil {
		fmt.Fprintln(s.err, "ratchetmark simulate:", err)
		return exitFailed
	}
	return 0
}
