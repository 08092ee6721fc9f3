package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"

	"ratchetmark/internal/calibrate"
)

// runCalibrate scores what is concluded of invented lives against their truth.
func runCalibrate(args []string, s streams) int {
	flags := flag.NewFlagSet("calibrate", flag.ContinueOnError)
	flags.SetOutput(s.err)
	lives := flags.Int("lives", 5000, "how many lives, 1 to 1000000")
	seed := flags.Uint64("seed", 1, "the same seed gives the same lives")
	asJSON := flags.Bool("json", false, "print JSON")
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return exitFailed
	}
	if flags.NArg() > 0 || *lives < 1 || *lives > mostLives {
		flags.Usage()
		return exitFailed
	}
	report := calibrate.Run(*lives, *seed)
	var err error
	if *asJSON {
		err = json.NewEncoder(s.out).Encode(report)
	} else {
		err = calibrate.WriteText(s.out, &report)
	}
	if err != nil {
		fmt.Fprintln(s.err, "ratchetmark calibrate:", err)
		return exitFailed
	}
	return 0
}
