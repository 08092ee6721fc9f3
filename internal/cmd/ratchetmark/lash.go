package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// mostQuestions is how many bytes of questions are read.
const mostQuestions = 4 << 20

// runLash answers the questions about lashing in a file, one line for each.
func runLash(args []string, s streams) int {
	if len(args) != 1 || args[0] == "-h" || args[0] == "--help" {
		fmt.Fprintln(s.err, "usage: ratchetmark lash FILE   (- is standard input)")
		if len(args) == 1 {
			return 0
		}
		return exitFailed
	}
	data, name, err := readQuestions(args[0], s.in)
	if err != nil {
		return failLash(s.err, err)
	}
	blocked, err := answerAll(s.out, name, data)
	switch {
	case err != nil:
		return failLash(s.err, err)
	case blocked:
		return exitBlocked
	}
	return 0
}

func failLash(w io.Writer, err error) int {
	fmt.Fprintln(w, "ratchetmark lash:", err)
	var refusal *record.Refusal
	if errors.As(err, &refusal) && refusal.Hint != "" {
		fmt.Fprintln(w, "  hint:", refusal.Hint)
	}
	return exitFailed
}

func readQuestions(name string, stdin io.Reader) (data []byte, shown string, err error) {
	in := stdin
	if shown = name; name == "-" {
		shown = "standard input"
	} else {
		f, err := os.Open(name)
		if err != nil {
			return nil, name, err
		}
		defer f.Close()
		in = f
	}
	data, err = io.ReadAll(io.LimitReader(in, mostQuestions+1))
	switch {
	case err != nil:
		return nil, shown, err
	case len(data) > mostQuestions:
		return nil, shown, questionRefused(shown, nil, 0, "more than 4 MiB")
	}
	return data, shown, nil
}

// answerAll answers one question after the other and reports whether any is
// refused. Nothing after one that cannot be read is answered.
func answerAll(w io.Writer, name string, data []byte) (blocked bool, err error) {
	in := json.NewDecoder(bytes.NewReader(data))
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	for n := 0; ; n++ {
		var raw json.RawMessage
		begin := int(in.InputOffset())
		if err := in.Decode(&raw); err == io.EOF && n > 0 {
			return blocked, nil
		} else if err == io.EOF {
			return blocked, questionRefused(name, data, 0, "the file is empty")
		} else if err != nil {
			var syntax *json.SyntaxError
			if errors.As(err, &syntax) {
				begin = int(syntax.Offset) - 1
			}
			return blocked, questionRefused(name, data, begin, "the JSON is broken: "+err.Error())
		}
		q, findings, err := lashing.ReadQuery(raw)
		if err != nil {
			return blocked, questionRefused(name, data, int(in.InputOffset())-len(raw), "found a value that is no object")
		}
		a := lashing.Ask(q, findings)
		blocked = blocked || record.Blocks(a.Findings)
		if err := out.Encode(a); err != nil {
			return blocked, err
		}
	}
}

// questionRefused says what could not be read, with line and column.
func questionRefused(name string, data []byte, offset int, found string) error {
	offset = max(0, min(offset, len(data)))
	before := data[:offset]
	r := &record.Refusal{File: name, Found: found, Expected: `an object with "rule" and "method", as {"method":"over-top","mass_kg":3000,"tension_dan":400,"mu":0.3}`,
		Hint: "write one question a line; README.md shows them"}
	if len(data) > 0 {
		r.Line = bytes.Count(before, []byte("\n")) + 1
		r.Column = len([]rune(string(before[bytes.LastIndexByte(before, '\n')+1:]))) + 1
	}
	return r
}
