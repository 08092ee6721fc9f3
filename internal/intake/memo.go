package intake

import (
	"strings"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// shelf gives values a place to be pointed at, many at a time.
type shelf[T any] struct{ free []T }

func (s *shelf[T]) of(v T) *T {
	if len(s.free) == 0 {
		s.free = make([]T, shelfSize)
	}
	at := &s.free[0]
	s.free = s.free[1:]
	*at = v
	return at
}

const shelfSize = 64 // values; a shelf is held as long as one of them is

// memo remembers what short texts mean: a column has few words that it repeats.
type memo[T any] struct{ known map[string]meaning[T] }

type meaning[T any] struct {
	value T
	ok    bool
}

const (
	memoTexts = 256 // texts that are remembered
	memoText  = 64  // bytes of the longest of them
)

// of returns what a text means by a function that depends on nothing else.
func (m *memo[T]) of(text string, read func(string) (T, bool)) (T, bool) {
	if a, ok := m.known[text]; ok {
		return a.value, a.ok
	}
	value, ok := read(text)
	if len(text) <= memoText && len(m.known) < memoTexts {
		if m.known == nil {
			m.known = map[string]meaning[T]{}
		}
		m.known[strings.Clone(text)] = meaning[T]{value, ok}
	}
	return value, ok
}

// readingPaths are the paths of a reading and of its values, written once for
// all cases of a file.
type readingPaths struct {
	reading record.Path
	values  [4]record.Path
}

var pathFields = [...]wording.Field{"powered_h", "moving_h", "peak_kg", "peak_at"}

// of returns the path of a value.
func (p *readingPaths) of(f wording.Field) record.Path {
	for i := range pathFields {
		if pathFields[i] != f {
			continue
		}
		if p.values[i] == "" {
			p.values[i] = p.reading.At(string(f))
		}
		return p.values[i]
	}
	return p.reading.At(string(f))
}

// pathsOf returns the paths of a reading, by its place from 0.
func (g *gatherer) pathsOf(i int) *readingPaths {
	for len(g.paths) <= i {
		g.paths = append(g.paths, &readingPaths{reading: record.Path("readings").At(len(g.paths) + 1)})
	}
	return g.paths[i]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
