package table

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"ratchetmark/internal/record"
)

// packed reads a ZIP archive or a workbook, which is one; inside tells that it
// stands in an archive itself. The packed bytes are held (at most maxPacked),
// for the directory stands at the end; what is unpacked passes through.
func (w Walker) packed(name string, in io.Reader, inside bool) error {
	return w.unpack(name, in, inside, &budget{left: maxUnpacked})
}

// unpack is packed within what is left to be unpacked.
func (w Walker) unpack(name string, in io.Reader, inside bool, b *budget) error {
	data, err := io.ReadAll(io.LimitReader(in, maxPacked+1))
	if err != nil {
		return err
	}
	files, refusal := directory(name, data)
	if refusal != nil {
		return refusal
	}
	switch what := contents(files); {
	case what == documentWorkbook:
		return w.workbook(name, files, b)
	case what != documentNone:
		return &Refusal{File: name, Found: "the file is " + what.words, Expected: expectedFile, Hint: what.hint}
	case inside:
		return &Refusal{File: name, Found: "an archive stands within an archive", Expected: "one archive of plain files", Hint: "unpack the outer archive and open the inner one"}
	}
	return w.entries(name, files, b)
}

// maxHeaders is how many entries of archives and of archives within them may be
// listed: each takes memory before it is looked at.
const maxHeaders = 20 * maxEntries

// directory reads what an archive lists, and refuses what is made to exhaust.
func directory(name string, data []byte) ([]*zip.File, *Refusal) {
	refuse := func(found, expected, hint string) ([]*zip.File, *Refusal) {
		return nil, &Refusal{File: name, Found: found, Expected: expected, Hint: hint}
	}
	if len(data) > maxPacked {
		return refuse(fmt.Sprintf("the archive is larger than %d MiB", maxPacked>>20), "a smaller one", "unpack it and open the files")
	}
	// 4.3.12 of the ZIP application note: each entry listed begins with these.
	if bytes.Count(data, []byte("PK\x01\x02")) > maxHeaders {
		return refuse("the archive lists too many entries", tooManyExpected, "unpack it and open the files")
	}
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return refuse("the archive or workbook is damaged or cut off: its directory at the end cannot be read", "a whole file", "copy or export it again")
	}
	if len(z.File) > maxEntries {
		return refuse(fmt.Sprintf("the archive lists %d entries", len(z.File)), tooManyExpected, "unpack it and open the files")
	}
	if len(z.File) == 0 {
		return refuse("the archive is empty", "an archive with files", "check the export: nothing was written to it")
	}
	var total uint64
	for _, f := range z.File {
		if total += min(f.UncompressedSize64, maxUnpacked+1); total > maxUnpacked {
			return refuse(fmt.Sprintf("the archive says that it unpacks to more than %d MiB", maxUnpacked>>20), "a smaller one", "unpack it and open the files")
		}
	}
	if overlapping(z.File) {
		return refuse("entries of the archive overlap", "entries one after the other", "the archive is not made by an ordinary program; ask for another")
	}
	return z.File, nil
}

var tooManyExpected = fmt.Sprintf("at most %d", maxEntries)

// overlapping reports whether two entries use the same packed bytes, as they do
// in archives made to unpack without end. Entries without a place are refused
// when they are opened.
func overlapping(files []*zip.File) bool {
	type span struct{ from, to uint64 }
	var spans []span
	for _, f := range files {
		if from, err := f.DataOffset(); err == nil && f.CompressedSize64 > 0 {
			spans = append(spans, span{uint64(from), uint64(from) + f.CompressedSize64})
		}
	}
	slices.SortFunc(spans, func(a, b span) int {
		switch {
		case a.from < b.from:
			return -1
		case a.from > b.from:
			return 1
		}
		return 0
	})
	for i := 1; i < len(spans); i++ {
		if spans[i].from < spans[i-1].to {
			return true
		}
	}
	return false
}

// entries walks each file of an archive, in the order of the names. One that is
// refused becomes a finding; where all are, the last refusal is returned.
func (w Walker) entries(name string, files []*zip.File, b *budget) error {
	files = slices.Clone(files)
	slices.SortStableFunc(files, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	var last *Refusal
	read := 0
	for _, f := range files {
		if aside(f.Name) || f.FileInfo().IsDir() {
			continue
		}
		at := name + ": " + entryName(f.Name)
		err := w.entry(at, f, b)
		var refusal *Refusal
		switch {
		case err == nil:
			read++
		case !errors.As(err, &refusal):
			return err
		default:
			last = refusal
			w.Note(record.Origin{File: at, Line: refusal.Line, Column: refusal.Column}, record.Finding{
				Code: "entry-refused", Severity: record.Doubt, Where: "the archive", Message: refusal.Found,
				Expected: refusal.Expected, Effect: "nothing more is read from this entry; the others are read", Hint: refusal.Hint,
			})
		}
	}
	switch {
	case read > 0:
		return nil
	case last != nil:
		return last
	}
	return &Refusal{File: name, Found: "the archive holds no files, only folders or what systems keep for themselves", Expected: expectedFile, Hint: "check the export: nothing was written to it"}
}

// entry walks one file of an archive.
func (w Walker) entry(at string, f *zip.File, b *budget) error {
	in, refusal := b.open(at, f)
	if refusal != nil {
		return refusal
	}
	defer in.Close()
	buffered := newPeeker(in)
	head, err := buffered.Peek(4)
	if err != nil && err != io.EOF {
		return err
	}
	if string(head) == "PK\x03\x04" {
		err = w.unpack(at, buffered, true, b) // within the same budget
	} else {
		err = w.walk(at, buffered, true)
	}
	if err != nil {
		return err
	}
	_, err = io.Copy(io.Discard, buffered) // to the checksum, which stands at the end
	return err
}

// asides are names that systems put into archives for themselves.
var asides = []string{"__macosx", "thumbs.db", "desktop.ini"}

func aside(name string) bool {
	for part := range strings.SplitSeq(strings.ReplaceAll(strings.ToLower(name), "\\", "/"), "/") {
		if slices.Contains(asides, part) {
			return true
		}
	}
	return strings.HasPrefix(path.Base(strings.ReplaceAll(name, "\\", "/")), ".")
}

const maxName = 200 // characters of an entry's name that are shown

// entryName writes the name of an entry so that it can be shown. A name that is
// not UTF-8 is in code page 437 (ZIP application note, appendix D).
func entryName(name string) string {
	if !utf8.ValidString(name) {
		name, _ = charmap.CodePage437.NewDecoder().String(name)
	}
	name = strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return utf8.RuneError
		}
		return r
	}, name)
	if runes := []rune(name); len(runes) > maxName {
		name = string(runes[:maxName]) + "…"
	}
	return name
}
