package table

import (
	"archive/zip"
	"fmt"
	"io"
	"strings"
)

// document is what an archive is by what it holds.
type document struct{ words, hint string }

var (
	documentNone     *document // files of any kind
	documentWorkbook = &document{words: "a workbook"}
)

const asWorkbook = "save it as XLSX or CSV and open that"

// documents tell a document by an entry that only it holds, case aside. The
// first that applies counts. Names of the parts: ECMA-376 part 2, OpenDocument
// 1.2 part 3, 2.2; from memory.
var documents = []struct {
	entry string // its beginning
	what  *document
}{
	{"xl/workbook.bin", &document{"a workbook in the binary form (XLSB)", asWorkbook}},
	{"xl/", documentWorkbook},
	{"word/", &document{"a text document (DOCX)", "copy its table into a workbook, or save it as a web page"}},
	{"ppt/", &document{"a set of slides (PPTX)", "copy its table into a workbook"}},
	{"[content_types].xml", &document{"a document of another office program", asWorkbook}},
	{"index/document.iwa", &document{"a document of another office program", asWorkbook}},
	{"meta-inf/container.xml", &document{"an electronic book", "ask for the record as delimited text or a workbook"}},
	{"meta-inf/manifest.mf", &document{"a program", "open the export, not the program"}},
	{"androidmanifest.xml", &document{"a program", "open the export, not the program"}},
	{"content.xml", &document{"an OpenDocument file (ODS, ODT)", asWorkbook}},
	{"meta-inf/manifest.xml", &document{"an OpenDocument file (ODS, ODT)", asWorkbook}},
}

// contents tells by the names of its entries what an archive is.
func contents(files []*zip.File) *document {
	names := map[string]bool{}
	for _, f := range files {
		name := strings.ToLower(strings.ReplaceAll(f.Name, "\\", "/"))
		names[name] = true
		if folder, _, ok := strings.Cut(name, "/"); ok {
			names[folder+"/"] = true
		}
	}
	typed := names["[content_types].xml"] || names["xl/workbook.xml"]
	for _, d := range documents {
		// A folder called "word" alone makes no document.
		if names[d.entry] && (typed || !strings.HasSuffix(d.entry, "/")) && (d.entry != "content.xml" || names["mimetype"]) {
			return d.what
		}
	}
	return documentNone
}

// budget is what may still be unpacked, in bytes; of an archive and of the
// workbooks in it together.
type budget struct{ left int64 }

// The methods of packing that are understood: 4.4.5 of the ZIP application note.
const (
	flagEncrypted = 1 // 4.4.4, bit 0
	methodStored  = zip.Store
	methodDeflate = zip.Deflate
)

// open opens an entry. Whatever is wrong with it is a [*Refusal] of the entry.
func (b *budget) open(name string, f *zip.File) (io.ReadCloser, *Refusal) {
	refuse := func(found, expected, hint string) (io.ReadCloser, *Refusal) {
		return nil, &Refusal{File: name, Found: found, Expected: expected, Hint: hint}
	}
	switch {
	case f.Flags&flagEncrypted != 0:
		return refuse("the entry is encrypted", "an entry that is not", "unpack it with the password and open the files")
	case f.Method != methodStored && f.Method != methodDeflate:
		return refuse(fmt.Sprintf("the entry is packed by method %d", f.Method), "method 0 or 8 (stored or deflate)", "unpack the archive and open the files")
	case f.UncompressedSize64 > ratioFrom && f.UncompressedSize64/maxRatio > f.CompressedSize64:
		return nil, bomb(name)
	}
	in, err := f.Open()
	if err != nil {
		return refuse("the entry does not begin where the archive says", "a whole archive", "copy or export it again")
	}
	return &meter{ReadCloser: in, name: name, budget: b, packed: int64(f.CompressedSize64)}, nil
}

func bomb(name string) *Refusal {
	return &Refusal{File: name, Found: fmt.Sprintf("the entry unpacks to more than %d times its packed size", maxRatio),
		Expected: "less", Hint: "the archive is not made by an ordinary program; ask for another"}
}

// meter counts what an entry unpacks to, whatever the archive says of it. The
// packed bytes are in memory, so every error of reading is a fault of the entry.
type meter struct {
	io.ReadCloser
	name   string
	budget *budget
	packed int64
	given  int64
}

// Read implements io.Reader.
func (m *meter) Read(p []byte) (int, error) {
	n, err := m.ReadCloser.Read(p)
	m.given += int64(n)
	m.budget.left -= int64(n)
	switch {
	case m.budget.left < 0:
		return 0, &Refusal{File: m.name, Found: fmt.Sprintf("the archive unpacks to more than %d MiB", maxUnpacked>>20), Expected: "a smaller one", Hint: "unpack it and open the files"}
	case m.given > ratioFrom && m.given/maxRatio > m.packed:
		return 0, bomb(m.name)
	case err != nil && err != io.EOF:
		return n, &Refusal{File: m.name, Found: "the entry is damaged: its packed bytes do not unpack to what the archive says", Expected: "a whole archive", Hint: "copy or export it again"}
	}
	return n, err
}
