package host

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"path"
	"strings"
	"sync"
)

// file is one file of the site in the forms that are stored.
type file struct {
	name   string
	stored map[string]*content // by content coding
}

// content is the bytes of one stored form, read once.
type content struct {
	read func() ([]byte, error)
	tag  string
}

// form is one way to send a file.
type form struct {
	coding string // what the body is coded with when it is sent
	stored *content
	unpack bool // the stored form is gzip and goes out uncoded
}

// index lists the files of a site by name. A folder that cannot be read has no files.
func index(files fs.FS) map[string]*file {
	table := map[string]*file{}
	_ = fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || strings.HasPrefix(path.Base(name), ".") {
			return nil
		}
		base, coding := splitCoding(name)
		f := table[base]
		if f == nil {
			f = &file{name: base, stored: map[string]*content{}}
			table[base] = f
		}
		f.stored[coding] = newContent(files, name)
		return nil
	})
	return table
}

// splitCoding tells the file and the coding that a stored name stands for. Only a file of a kind that is worth coding has
// coded siblings, so photo.gz stays a file of its own.
func splitCoding(name string) (base, coding string) {
	for ext, coding := range map[string]string{".br": codingBrotli, ".gz": codingGzip} {
		if base, ok := strings.CutSuffix(name, ext); ok && textual(base) {
			return base, coding
		}
	}
	return name, codingIdentity
}

func newContent(files fs.FS, name string) *content {
	c := &content{}
	c.read = sync.OnceValues(func() ([]byte, error) {
		data, err := fs.ReadFile(files, name)
		sum := sha256.Sum256(data)
		c.tag = hex.EncodeToString(sum[:16])
		return data, err
	})
	return c
}

// load returns the stored bytes.
func (c *content) load() ([]byte, error) { return c.read() }

// coded tells whether what is sent can depend on Accept-Encoding.
func (f *file) coded() bool {
	return f.stored[codingBrotli] != nil || f.stored[codingGzip] != nil
}

// form finds how to send the file with a coding.
func (f *file) form(coding string) (form, bool) {
	if c := f.stored[coding]; c != nil {
		return form{coding: coding, stored: c}, true
	}
	if c := f.stored[codingGzip]; c != nil && coding == codingIdentity {
		return form{coding: coding, stored: c, unpack: true}, true
	}
	return form{}, false
}

// etag is a strong validator: each form of a file has its own (RFC 9110, 8.8.3.3). Valid after load.
func (f form) etag() string {
	if f.unpack {
		return `"` + f.stored.tag + `-unpacked"`
	}
	return `"` + f.stored.tag + `"`
}
