package assume

import (
	"maps"
	"slices"
)

// sortedKeys returns the keys of m in order, so that findings do not depend on
// the order of a map.
func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
