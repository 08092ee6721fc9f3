package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

func TestCalibrate(t *testing.T) {
	var out, complaints bytes.Buffer
	if code := dispatch([]string{"calibrate", "--lives", "40"}, streams{nil, &out, &complaints}); code != 0 || !strings.HasPrefix(out.String(), "40 invented lives, seed 1") {
		t.Errorf("got exit code %d, %q %q, want a report of 40 lives", code, out.String(), complaints.String())
	}
	out.Reset()
	if code := dispatch([]string{"calibrate", "--lives", "20", "--json"}, streams{nil, &out, &complaints}); code != 0 || !json.Valid(out.Bytes()) {
		t.Errorf("got exit code %d and %q, want JSON", code, out.String())
	}
	for _, args := range [][]string{{"calibrate", "--lives", "0"}, {"calibrate", "x"}, {"calibrate", "--what"}} {
		complaints.Reset()
		if code := dispatch(args, streams{nil, &out, &complaints}); code != exitFailed || complaints.Len() == 0 {
			t.Errorf("%v: got exit code %d and %q, want it refused with the usage", args, code, complaints.String())
		}
	}
}
