package digest

import "testing"

func TestReadNamesTheBytes(t *testing.T) {
	const text = "{\"format\":\"ratchetmark case 1\",\"machine\":{\"rated_load_kg\":230}}\n"
	// From the common command line tool sha256sum over the same bytes.
	const want = "aa08926860f75f960d035054ee7dbf486ea454501ace2acdb4e83106d43a572c"
	batch, err := ReadBytes("x.case.json", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	if batch.SHA256 != want {
		t.Errorf("got %s, want %s", batch.SHA256, want)
	}
	if batch.Bytes != int64(len(text)) {
		t.Errorf("got %d bytes, want %d", batch.Bytes, len(text))
	}
}
