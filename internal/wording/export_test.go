package wording

import "strings"

// EachFieldWord visits every phrase of the table of headings.
func EachFieldWord(visit func(f Field, language, phrase string)) {
	for _, rows := range [...][]fieldRow{fieldWords, bandFieldWords} {
		for _, row := range rows {
			for phrase := range strings.SplitSeq(row.phrases, ";") {
				visit(row.field, row.language, phrase)
			}
		}
	}
}
