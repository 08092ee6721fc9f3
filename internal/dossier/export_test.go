package dossier

// HowToGet returns what is said of how to get a record, and whether a row names it.
func HowToGet(record string) (do, tell string, named bool) {
	a := actionOf(record, "why")
	return a.do, a.tell, a.tell != "why"
}
