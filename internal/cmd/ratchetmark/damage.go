package main

import (
	"fmt"
	"io"
	"os"

	"ratchetmark/internal/record"
	"ratchetmark/internal/spectrum"
)

// runDamage prints Miner's sum of a stress spectrum, with its terms.
func runDamage(args []string, s streams) int {
	if len(args) != 1 {
		fmt.Fprintln(s.err, "usage: ratchetmark damage FILE   (- is standard input)")
		return exitFailed
	}
	r, err := readSpectrum(args[0], s.in)
	if err == nil {
		err = spectrum.Write(s.out, r)
	}
	switch {
	case err != nil:
		sayErrorOf(s.err, "damage", err)
		return exitFailed
	case record.Blocks(r.Findings):
		return exitBlocked
	}
	return 0
}

func readSpectrum(name string, stdin io.Reader) (spectrum.Result, error) {
	if name == "-" {
		return spectrum.Read("standard input", stdin)
	}
	f, err := os.Open(name)
	if err != nil {
		return spectrum.Result{}, err
	}
	defer f.Close()
	return spectrum.Read(name, f)
}
