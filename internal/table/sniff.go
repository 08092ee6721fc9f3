package table

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"
)

type kind int

const (
	kindDelimited kind = iota
	kindJSON
	kindHTML
	kindZIP
)

// signatures are the first bytes of files that are often picked by mistake.
// The values are those of the formats' own specifications.
var signatures = []struct {
	prefix, what, hint string
}{
	{"\xff\xd8\xff", "a JPEG picture", "type the readings in from the picture"},
	{"\x89PNG\r\n\x1a\n", "a PNG picture", "type the readings in from the picture"},
	{"GIF8", "a GIF picture", "type the readings in from the picture"},
	{"%PDF-", "a PDF document", "type the readings in, or ask for the export as delimited text or a workbook"},
	{"\xd0\xcf\x11\xe0", "an old office document", "save it as XLSX or CSV and open that"},
	{"\x1f\x8b", "a gzip archive", "unpack it first"},
	{"II*\x00", "a TIFF picture", "type the readings in from the picture"},
	{"MM\x00*", "a TIFF picture", "type the readings in from the picture"},
	{"{\\rtf", "a text document (RTF)", "copy the table from it and paste it"},
	{"7z\xbc\xaf\x27\x1c", "a 7z archive", "unpack it first"},
	{"Rar!", "a RAR archive", "unpack it first"},
}

const expectedFile = "a case file, delimited text, a workbook (XLSX), a page with a table, or a ZIP archive of them"

func newPeeker(in io.Reader) *bufio.Reader { return bufio.NewReaderSize(in, sniffed*4) }

// sniff tells from its first bytes what a file is, or why it cannot be a record.
func sniff(name string, head []byte) (kind, *Refusal) {
	refuse := func(found, hint string) (kind, *Refusal) {
		return 0, &Refusal{File: name, Found: found, Expected: expectedFile, Hint: hint}
	}
	if len(head) == 0 {
		return refuse("the file is empty", "check the export: nothing was written to it")
	}
	for _, s := range signatures {
		if bytes.HasPrefix(head, []byte(s.prefix)) {
			return refuse("the file is "+s.what, s.hint)
		}
	}
	switch {
	case len(head) > 12 && string(head[4:8]) == "ftyp":
		return refuse("the file is a picture or film of a phone", "type the readings in from the picture")
	case len(head) > 12 && string(head[:4]) == "RIFF" && string(head[8:12]) == "WEBP":
		return refuse("the file is a WebP picture", "type the readings in from the picture")
	}
	if bytes.HasPrefix(head, []byte("PK\x03\x04")) || bytes.HasPrefix(head, []byte("PK\x05\x06")) {
		return kindZIP, nil
	}
	plain := head
	if wide := wideOf(head); wide != narrow {
		plain = narrowed(head, wide)
	}
	text := bytes.TrimLeft(bytes.TrimPrefix(plain, []byte(bom)), " \t\r\n")
	switch {
	case len(text) == 0:
		return refuse("the file begins with nothing but blank lines", "check the export: nothing was written to it")
	case text[0] == '{' || text[0] == '[':
		return kindJSON, nil
	case len(text) > 1 && text[0] == '<' && (text[1] >= 'A' && text[1] <= 'Z' || text[1] >= 'a' && text[1] <= 'z' || text[1] == '!' || text[1] == '?' || text[1] == '/'):
		return kindHTML, nil
	}
	if i := bytes.IndexByte(plain, 0); i >= 0 && !strings.Contains(string(plain[:i]), "\n") {
		return refuse(fmt.Sprintf("byte %d is zero: the file is not text", i+1), "export the record as delimited text")
	}
	return kindDelimited, nil
}

const bom = "\ufeff"
