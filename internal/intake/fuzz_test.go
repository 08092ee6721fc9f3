package intake_test

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"unicode/utf8"

	"ratchetmark/internal/intake"
)

// seeds adds every small file of testdata.
func seeds(f *testing.F) {
	err := filepath.WalkDir(testdata, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err == nil && len(data) < 20_000 {
			f.Add(data)
		}
		return err
	})
	if err != nil {
		f.Fatal(err)
	}
}

// Whatever the bytes: no panic, a refusal that says why, or records that can be
// written and read again as they are.
func FuzzRead(f *testing.F) {
	seeds(f)
	f.Add([]byte(whole))
	f.Add([]byte(heading + "A,boom,230,2,,2026-03-02,1,,99,,0,90,1\n,,,,,,,,,,90,,2"))
	f.Fuzz(func(t *testing.T, data []byte) {
		batch, err := intake.ReadBytes("x", data)
		if err != nil {
			var refusal *intake.Refusal
			if !errors.As(err, &refusal) || refusal.Found == "" || refusal.Expected == "" || refusal.Hint == "" {
				t.Fatalf("got %#v, want a refusal that says why", err)
			}
			return
		}
		if batch.Bytes != int64(len(data)) {
			t.Fatalf("got %d bytes, want %d", batch.Bytes, len(data))
		}
		for _, r := range batch.Records {
			for _, finding := range r.Findings {
				if finding.Code == "" || finding.Where == "" || finding.Effect == "" || finding.Expected == "" || !utf8.ValidString(finding.Message) {
					t.Fatalf("got finding %+v, want it whole", finding)
				}
			}
			written, err := json.Marshal(r.Case)
			if err != nil {
				t.Fatalf("got %v, want a case that can be saved: %+v", err, r.Case)
			}
			back, err := intake.ReadBytes("again", written)
			if err != nil || len(back.Records) != 1 {
				t.Fatalf("got %v, want it read again: %s", err, written)
			}
			if again, err := json.Marshal(back.Records[0].Case); err != nil || string(again) != string(written) {
				t.Fatalf("got %s, %v, want %s", again, err, written)
			}
		}
	})
}

// What comes out shows, is UTF-8, and stays as it is the second time.
func FuzzVisible(f *testing.F) {
	for _, s := range []string{"", "NF-07", "a\x00b", "\u202eabc", "\xff\xfe", "\n\t\r", "ä漢😀", "\u2066\u2069\u061c", "[U+0000]"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		clean, changed := intake.Visible(s)
		if changed != (clean != s) || !utf8.ValidString(clean) {
			t.Fatalf("%q: got %q, %v, want valid text and whether it changed", s, clean, changed)
		}
		for _, r := range clean {
			switch {
			case r == '\n' || r == '\t':
			case r < ' ', r >= 0x7f && r < 0xa0, r >= 0x200b && r <= 0x200f, r >= 0x202a && r <= 0x202e, r >= 0x2060 && r <= 0x206f, r == 0x61c, r == 0xfeff:
				t.Fatalf("%q: got %q with %U, want it shown by its code", s, clean, r)
			}
		}
		if again, changed := intake.Visible(clean); again != clean || changed {
			t.Fatalf("%q: got %q the second time, want %q", s, again, clean)
		}
	})
}
