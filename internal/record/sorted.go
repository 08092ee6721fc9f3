package record

import "sort"

// SortStable sorts by a comparison, and leaves what ties in its order. It is one
// sort for whatever is sorted: the generic one is compiled anew for each type,
// which makes the page larger.
func SortStable[T any](s []T, compare func(a, b T) int) {
	sort.SliceStable(s, func(i, j int) bool { return compare(s[i], s[j]) < 0 })
}
