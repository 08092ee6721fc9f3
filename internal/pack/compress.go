package pack

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"maps"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"sync"
	"time"

	"github.com/andybalholm/brotli"
)

const (
	worthwhile = 256     // bytes below which a file is stored only as it is
	codedOnly  = 1 << 18 // bytes from which a file is stored only compressed
	brotliBest = 11      // the highest quality
	brotliLog  = 24      // base-2 logarithm of the window, the most that browsers accept
	keepCached = 14 * 24 * time.Hour
)

// form is one compressed form of a file.
type form struct {
	ext   string
	write func(io.Writer) io.WriteCloser
}

var forms = []form{
	{".br", func(out io.Writer) io.WriteCloser {
		return brotli.NewWriterOptions(out, brotli.WriterOptions{Quality: brotliBest, LGWin: brotliLog})
	}},
	{".gz", func(out io.Writer) io.WriteCloser {
		w, _ := gzip.NewWriterLevel(out, gzip.BestCompression) // the level is a valid constant
		return w
	}},
}

// compressible are the extensions whose files get compressed forms.
var compressible = map[string]bool{
	".html": true, ".css": true, ".js": true, ".wasm": true, ".json": true, ".svg": true, ".csv": true, ".tsv": true,
	".txt": true, ".ndjson": true, ".webmanifest": true, ".xml": true,
}

// compress returns the site with compressed forms beside its files, several files at a time.
func compress(site tree, cache string) (tree, error) {
	if err := os.MkdirAll(cache, 0o755); err != nil {
		return nil, err
	}
	var (
		stored   = maps.Clone(site)
		failure  error
		lock     sync.Mutex
		running  sync.WaitGroup
		capacity = make(chan struct{}, runtime.GOMAXPROCS(0))
	)
	for name, content := range site {
		if !compressible[path.Ext(name)] || len(content) < worthwhile {
			continue
		}
		running.Go(func() {
			capacity <- struct{}{}
			defer func() { <-capacity }()
			smaller, err := smallerForms(content, cache)
			lock.Lock()
			defer lock.Unlock()
			if err != nil {
				failure = err
				return
			}
			store(stored, name, smaller)
		})
	}
	running.Wait()
	forget(cache)
	return stored, failure
}

// smallerForms compresses a file in each way that makes it smaller.
func smallerForms(content []byte, cache string) (map[string][]byte, error) {
	smaller := map[string][]byte{}
	for _, f := range forms {
		small, err := f.cached(content, cache)
		if err != nil {
			return nil, err
		}
		if len(small) < len(content) {
			smaller[f.ext] = small
		}
	}
	return smaller, nil
}

// store puts a file's compressed forms beside it. A large file that has all of them is not stored plain: the host unpacks
// gzip for the rare client that takes neither.
func store(stored tree, name string, smaller map[string][]byte) {
	for ext, small := range smaller {
		stored[name+ext] = small
	}
	if len(stored[name]) >= codedOnly && len(smaller) == len(forms) {
		delete(stored, name)
	}
}

// cached compresses the content or takes the result of an earlier run.
func (f form) cached(content []byte, cache string) ([]byte, error) {
	sum := sha256.Sum256(content)
	kept := filepath.Join(cache, hex.EncodeToString(sum[:])+f.ext)
	if small, err := os.ReadFile(kept); err == nil {
		now := time.Now()
		_ = os.Chtimes(kept, now, now) // marks it as used; no harm if it fails
		return small, nil
	}
	var out bytes.Buffer
	w := f.write(&out)
	if _, err := w.Write(content); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), replaceFile(kept, out.Bytes())
}

// replaceFile writes a file whole or not at all, as several builds may share the cache.
func replaceFile(name string, content []byte) error {
	temporary, err := os.CreateTemp(filepath.Dir(name), ".new")
	if err != nil {
		return err
	}
	defer os.Remove(temporary.Name())
	if _, err := temporary.Write(content); err != nil {
		return err
	}
	if err := temporary.Close(); err != nil {
		return err
	}
	return os.Rename(temporary.Name(), name)
}

// forget drops results that have not been used for a while; one that cannot be dropped stays.
func forget(cache string) {
	entries, _ := os.ReadDir(cache)
	for _, entry := range entries {
		info, err := entry.Info()
		if err == nil && time.Since(info.ModTime()) > keepCached {
			_ = os.Remove(filepath.Join(cache, entry.Name()))
		}
	}
}
