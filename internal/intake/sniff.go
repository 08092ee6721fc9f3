package intake

import (
	"bytes"
	"fmt"
	"strings"
)

type kind int

const (
	kindDelimited kind = iota
	kindJSON
)

// signatures are the first bytes of files that are often picked by mistake.
// The values are those of the formats' own specifications.
var signatures = []struct {
	prefix, what, hint string
}{
	{"\xff\xd8\xff", "a JPEG picture", "type the readings in from the picture"},
	{"\x89PNG\r\n\x1a\n", "a PNG picture", "type the readings in from the picture"},
	{"GIF8", "a GIF picture", "type the readings in from the picture"},
	{"%PDF-", "a PDF document", "type the readings in, or ask for the export as delimited text"},
	{"PK\x03\x04", "a ZIP archive or an office document", "save the sheet as CSV, UTF-8, and open that"},
	{"\xd0\xcf\x11\xe0", "an old office document", "save the sheet as CSV, UTF-8, and open that"},
	{"\x1f\x8b", "a gzip archive", "unpack it first"},
	{"\xff\xfe", "text in UTF-16", "save it as UTF-8 and open that"},
	{"\xfe\xff", "text in UTF-16", "save it as UTF-8 and open that"},
}

const expectedFile = "a case file (.case.json) or delimited text in the form of the template"

// sniff tells from its first bytes what a file is, or why it cannot be a record.
func sniff(name string, head []byte) (kind, *Refusal) {
	refuse := func(found, hint string) (kind, *Refusal) {
		return 0, &Refusal{File: name, Found: found, Expected: expectedFile, Hint: hint}
	}
	for _, s := range signatures {
		if bytes.HasPrefix(head, []byte(s.prefix)) {
			return refuse("the file is "+s.what, s.hint)
		}
	}
	text := bytes.TrimLeft(bytes.TrimPrefix(head, []byte(bom)), " \t\r\n")
	switch {
	case len(head) == 0:
		return refuse("the file is empty", "check the export: nothing was written to it")
	case len(text) == 0:
		return refuse("the file begins with nothing but blank lines", "check the export: nothing was written to it")
	case text[0] == '{' || text[0] == '[':
		return kindJSON, nil
	case text[0] == '<':
		return refuse("the file is a web page or XML", "copy the table from the page and paste it, or export delimited text")
	}
	if i := bytes.IndexByte(head, 0); i >= 0 && !strings.Contains(string(head[:i]), "\n") {
		return refuse(fmt.Sprintf("byte %d is zero: the file is not text", i+1), "export the record as delimited text")
	}
	return kindDelimited, nil
}

const bom = "\ufeff"
