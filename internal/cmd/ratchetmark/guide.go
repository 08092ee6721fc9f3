package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// runGuide prints, for each table of a file, how it is read: one guide a line.
// A table whose headings are not known gives a guide with blank columns, to be
// filled in.
func runGuide(args []string, s streams) int {
	if len(args) != 1 {
		fmt.Fprintln(s.err, "usage: ratchetmark guide FILE   (- is standard input)")
		return exitFailed
	}
	batch, err := readFile(args[0], s.in, intake.GuidesOf())
	var refusal *record.Refusal
	if err != nil && !errors.As(err, &refusal) {
		sayError(s.err, err)
		return exitFailed
	}
	printed := 0
	out := json.NewEncoder(s.out)
	for _, sheet := range batch.Sheets {
		if len(sheet.Guide.Heading) == 0 {
			continue
		}
		if err := out.Encode(sheet.Guide); err != nil {
			sayError(s.err, err)
			return exitFailed
		}
		printed++
	}
	if printed == 0 {
		if err == nil {
			err = fmt.Errorf("%s: no table with a heading; expected one to make a guide for", args[0])
		}
		sayError(s.err, err)
		return exitFailed
	}
	return 0
}

// addGuides reads the guides of a file, one JSON object after the other.
func addGuides(options *intake.Options, name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	for in := json.NewDecoder(f); ; {
		var text json.RawMessage
		if err := in.Decode(&text); err == io.EOF {
			return nil
		} else if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		g, err := intake.ReadGuide(text)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		options.Add(g)
	}
}
