package table

import "io"

// CountMarkup takes markup apart as that of a workbook and counts its tokens.
func CountMarkup(in io.Reader) (n int, err error) {
	for m := newMarkup(in); ; n++ {
		if _, err := m.next(); err == io.EOF {
			return n, nil
		} else if err != nil {
			return n, err
		}
	}
}

// Decoded gives text as UTF-8; head is its beginning.
func Decoded(in io.Reader, head []byte) io.Reader { return newDecoder(in, head) }
