package table_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/table"
)

// noise is text that hardly packs.
func noise(n int) string {
	r := rand.New(rand.NewPCG(1, 2))
	b := make([]byte, n)
	for i := range b {
		b[i] = "abcdefghijklmnopqrstuvwxyz0123456789"[r.IntN(36)]
	}
	return string(b)
}

func (t taken) files() string {
	var out []string
	for _, tb := range t.tables {
		out = append(out, tb.file)
	}
	return strings.Join(out, ", ")
}

func TestArchive(t *testing.T) {
	book := string(oneSheet(`<row r="1"><c r="A1"><v>1</v></c></row>`).bytes())
	got := takeBytes("export.zip", archive(map[string]string{
		"march.csv": "a;b\n1;2\n", "april.xlsx": book, "page.htm": "<table><tr><td>a<td>b</table>", "case.json": "{}",
		"folder/": "", "folder/deep.txt": "a\tb\n", "__MACOSX/._march.csv": "\x00\x05", ".DS_Store": "\x00", "sub/Thumbs.db": "\xd0\xcf\x11\xe0",
		"word/list.csv": "a;b\n", // a folder of this name makes no document
	}))
	want := "export.zip: april.xlsx, export.zip: folder/deep.txt, export.zip: march.csv, export.zip: page.htm, export.zip: word/list.csv"
	if got.err != nil || got.files() != want || len(got.notes) != 0 {
		t.Errorf("got %s, %v, the error %v, want %s in this order", got.files(), got.notes, got.err, want)
	}
	if len(got.json) != 1 || got.json[0] != "export.zip: case.json={}" {
		t.Errorf("got the JSON texts %q, want that of case.json", got.json)
	}
	if g := grid(got.tables[2].rows); g != "a|b / 1|2" {
		t.Errorf("got the rows %q of march.csv, want a|b / 1|2", g)
	}
}

// What is wrong with one entry is a finding; the others are read.
func TestArchiveEntryRefused(t *testing.T) {
	for _, c := range []struct{ name, file, content, want string }{
		{"picture", "photo.jpg", "\xff\xd8\xff\xe0", "the file is a JPEG picture"},
		{"empty", "empty.csv", "", "the file is empty"},
		{"archive", "inner.zip", string(archive(map[string]string{"x.csv": "a;b\n"})), "an archive stands within an archive"},
		{"empty archive", "none.zip", "PK\x05\x06" + strings.Repeat("\x00", 18), "the archive is empty"},
		{"text document", "letter.docx", string(archive(map[string]string{"[Content_Types].xml": "", "word/document.xml": ""})), "a text document (DOCX)"},
		{"damaged workbook", "b.xlsx", string(oneSheet("").bytes()[:200]), "damaged or cut off"},
		{"page without a table", "p.html", "<p>no", "a web page or XML without a table"},
		{"bomb by ratio", "big.csv", strings.Repeat("0;0\n", 1<<20), "unpacks to more than 100 times"},
		{"workbook with a bomb", "b.xlsx", string(oneSheet(strings.Repeat("<row/>", 1<<20)).bytes()), "unpacks to more than 100 times"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := takeBytes("e.zip", archive(map[string]string{"a.csv": "a;b\n", c.file: c.content, "z.csv": "c;d\n"}))
			if got.err != nil || got.files() != "e.zip: a.csv, e.zip: z.csv" {
				t.Errorf("got %s and the error %v, want the other two", got.files(), got.err)
			}
			if len(got.notes) != 1 || got.notes[0].Code != "entry-refused" || got.notes[0].Severity != "doubt" || !strings.Contains(got.notes[0].Message, c.want) || got.notes[0].File != "e.zip: "+c.file {
				t.Errorf("got %+v, want one that says %q of %s", got.notes, c.want, c.file)
			}
			alone := takeBytes("e.zip", archive(map[string]string{c.file: c.content}))
			if r := alone.refused(t); !strings.Contains(r.Found, c.want) || r.File != "e.zip: "+c.file {
				t.Errorf("got %v of the entry alone, want its refusal", alone.err)
			}
		})
	}
}

func TestArchiveRefused(t *testing.T) {
	many := map[string]string{}
	for i := range 501 {
		many[fmt.Sprintf("%d.csv", i)] = "a;b\n"
	}
	good := archive(map[string]string{"a.csv": "a;b\n" + noise(1000), "b.csv": "c;d\n"})
	document := func(names ...string) []byte {
		files := map[string]string{}
		for _, n := range names {
			files[n] = "x"
		}
		return archive(files)
	}
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"cut off", good[:len(good)-30], "damaged or cut off"},
		{"cut off at the beginning", good[:40], "damaged or cut off"},
		{"too many", archive(many), "lists 501 entries"},
		{"far too many", append([]byte("PK\x03\x04"), bytes.Repeat([]byte("PK\x01\x02"), 10001)...), "lists too many entries"},
		{"too large", append([]byte("PK\x03\x04"), make([]byte, 64<<20)...), "larger than 64 MiB"},
		{"only folders", archive(map[string]string{"a/": "", ".hidden": "x"}), "holds no files"},
		{"binary workbook", document("[Content_Types].xml", "xl/workbook.bin"), "XLSB"},
		{"text document", document("[Content_Types].xml", "word/document.xml"), "DOCX"},
		{"slides", document("[Content_Types].xml", "ppt/presentation.xml"), "PPTX"},
		{"other document", document("[Content_Types].xml", "visio/document.xml"), "another office program"},
		{"OpenDocument", document("mimetype", "content.xml", "META-INF/manifest.xml"), "OpenDocument"},
		{"electronic book", document("mimetype", "META-INF/container.xml"), "an electronic book"},
		{"program", document("META-INF/MANIFEST.MF", "a.class"), "a program"},
		{"overlapping", overlapping(), "entries of the archive overlap"},
		{"declares too much", lying(5, func(f *zip.FileHeader) { f.UncompressedSize64 = 200 << 20; f.CompressedSize64 = 4 }), "more than 512 MiB"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if r := takeBytes("e.zip", c.data).refused(t); !strings.Contains(r.Found, c.want) || r.File != "e.zip" || r.Hint == "" || r.Expected == "" {
				t.Errorf("got %+v, want it to say %q", r, c.want)
			}
		})
	}
}

// Entries that say something else of themselves than they are.
func TestArchiveEntryLies(t *testing.T) {
	for _, c := range []struct {
		name string
		lie  func(*zip.FileHeader)
		want string
	}{
		{"encrypted", func(f *zip.FileHeader) { f.Flags |= 1 }, "the entry is encrypted"},
		{"other method", func(f *zip.FileHeader) { f.Method = 12 }, "packed by method 12"},
		{"says it is smaller", func(f *zip.FileHeader) { f.UncompressedSize64 = 1 }, "the entry is damaged"},
		{"says it is empty", func(f *zip.FileHeader) { f.UncompressedSize64 = 0 }, "the entry is damaged"},
		{"says it is larger", func(f *zip.FileHeader) { f.UncompressedSize64 = 1000 }, "the entry is damaged"},
		{"other checksum", func(f *zip.FileHeader) { f.CRC32++ }, "the entry is damaged"},
		{"not packed as it says", func(f *zip.FileHeader) { f.Method = zip.Deflate }, "the entry is damaged"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if r := takeBytes("e.zip", lying(1, c.lie)).refused(t); !strings.Contains(r.Found, c.want) {
				t.Errorf("got %q, want %q", r.Found, c.want)
			}
		})
	}
}

// What unpacks to more than it may is stopped, whatever its directory says.
func TestArchiveBombThatLies(t *testing.T) {
	var packed bytes.Buffer
	z := zip.NewWriter(&packed)
	w, _ := z.Create("x")
	for range 8 {
		w.Write(make([]byte, 1<<20))
	}
	z.Close()
	r, err := zip.NewReader(bytes.NewReader(packed.Bytes()), int64(packed.Len()))
	if err != nil {
		t.Fatal(err)
	}
	raw, _ := r.File[0].OpenRaw()
	body, _ := io.ReadAll(raw)
	var out bytes.Buffer
	z = zip.NewWriter(&out)
	w, _ = z.CreateRaw(&zip.FileHeader{Name: "a.csv", Method: zip.Deflate, CRC32: r.File[0].CRC32, CompressedSize64: uint64(len(body)), UncompressedSize64: 1000})
	w.Write(append([]byte(nil), body...))
	z.Close()
	got := takeBytes("e.zip", out.Bytes())
	if got.err == nil {
		t.Errorf("got no error, want a refusal")
	}
	got.refused(t)
}

// lying is an archive of entries with "a;b\n" stored, whose headers are changed.
func lying(n int, lie func(*zip.FileHeader)) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	body := []byte("a;b\n")
	for i := range n {
		h := &zip.FileHeader{Name: fmt.Sprintf("%d.csv", i), Method: zip.Store, CRC32: crc32.ChecksumIEEE(body), CompressedSize64: 4, UncompressedSize64: 4}
		lie(h)
		w, err := z.CreateRaw(h)
		if err != nil {
			panic(err)
		}
		w.Write(body)
	}
	z.Close()
	return out.Bytes()
}

// overlapping is an archive whose second entry is listed where the first is.
func overlapping() []byte {
	data := lying(2, func(*zip.FileHeader) {})
	at := bytes.LastIndex(data, []byte("PK\x01\x02"))
	binary.LittleEndian.PutUint32(data[at+42:], 0) // the offset of the local header: 4.3.12 of the application note
	return data
}

// Names are shown as people wrote them, and cannot spoil a message.
func TestArchiveEntryName(t *testing.T) {
	for name, want := range map[string]string{
		"M\x84rz.csv": "März.csv", // code page 437: 0x84 is ä
		"März.csv":    "März.csv", "a\x1b[31m\nb.csv": "a\ufffd[31m\ufffdb.csv",
		strings.Repeat("n", 300): strings.Repeat("n", 200) + "…",
	} {
		got := takeBytes("e.zip", lying(1, func(f *zip.FileHeader) { f.Name = name }))
		if got.files() != "e.zip: "+want {
			t.Errorf("%q: got %q, want %q", name, got.files(), "e.zip: "+want)
		}
	}
}

// Errors of the reader and of the walker are no findings of the archive.
func TestErrorsPassThrough(t *testing.T) {
	stop := errors.New("stop")
	files := map[string]io.Reader{
		"zip":  bytes.NewReader(archive(map[string]string{"a.csv": "a;b\n"})),
		"xlsx": bytes.NewReader(oneSheet(`<row><c><v>1</v></c></row>`).bytes()),
		"html": strings.NewReader("<table><tr><td>a<td>b</table>"), "csv": strings.NewReader("a;b\n"),
	}
	for name, in := range files {
		err := table.Walk(name, in, table.Walker{Table: func(table.Table) error { return stop }})
		if err != stop {
			t.Errorf("%s: got %v from the walker, want its own error", name, err)
		}
	}
	for _, head := range []string{"", "a;b\n", "<table><tr><td>a", "PK\x03\x04", "{"} {
		got := take("x", io.MultiReader(strings.NewReader(head+strings.Repeat(" ", 5000)), failing{stop}))
		if !errors.Is(got.err, stop) && head != "" {
			t.Errorf("%q: got %v, want the error of the reader", head, got.err)
		}
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// Any bytes of an archive may be wrong: a refusal, findings, or a table, never else.
func TestArchiveDamagedAnywhere(t *testing.T) {
	data := archive(map[string]string{"a.csv": "a;b\n1;2\n", "b.xlsx": string(oneSheet(`<row><c><v>1</v></c></row>`).bytes())})
	for i := 4; i < len(data); i++ {
		bad := slices.Clone(data)
		bad[i] ^= 0x55
		if got := takeBytes("e.zip", bad); got.err != nil {
			got.refused(t)
		}
	}
}
