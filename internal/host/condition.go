package host

import (
	"net/http"
	"strings"
)

// precondition evaluates If-Match and If-None-Match in the order of RFC 9110, 13.2.2 and returns 412, 304 or 0.
// The files have no modification date, so the fields that compare dates are ignored (13.1.3, 13.1.4).
func precondition(header http.Header, etag string) int {
	if lines := header.Values("If-Match"); len(lines) > 0 && !listed(lines, etag, false) {
		return http.StatusPreconditionFailed // 13.1.1
	}
	if lines := header.Values("If-None-Match"); len(lines) > 0 && listed(lines, etag, true) {
		return http.StatusNotModified // 13.1.2
	}
	return 0
}

// listed tells whether a list of entity tags has the tag; "*" has every tag. Weak tags count only in a weak comparison
// (RFC 9110, 8.8.3.2).
func listed(lines []string, etag string, weak bool) bool {
	rest := strings.Join(lines, ",")
	for {
		rest = strings.TrimLeft(rest, ", \t")
		if rest == "" {
			return false
		}
		if rest[0] == '*' {
			return true
		}
		tag, isWeak, after, ok := nextTag(rest)
		if !ok {
			return false
		}
		if tag == etag && (weak || !isWeak) {
			return true
		}
		rest = after
	}
}

// nextTag cuts one entity tag off the front of a list. A tag may hold commas, so it is read to its closing quote.
func nextTag(list string) (tag string, weak bool, rest string, ok bool) {
	list, weak = strings.CutPrefix(list, "W/")
	if !strings.HasPrefix(list, `"`) {
		return "", false, "", false
	}
	end := strings.IndexByte(list[1:], '"')
	if end < 0 {
		return "", false, "", false
	}
	return list[:end+2], weak, list[end+2:], true
}
