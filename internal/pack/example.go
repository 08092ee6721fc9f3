package pack

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"maps"
	"os"
	"slices"
	"strings"
)

// exampleIndex is example/index.json: what there is to open.
type exampleIndex struct {
	Files []exampleFile `json:"files"`
}

// exampleFile is one file of the worked example; the name is relative to the index.
type exampleFile struct {
	Name   string `json:"name"`
	Bytes  int    `json:"bytes"`
	SHA256 string `json:"sha256"`
}

// addExample copies a folder to example/ and lists it there, sorted by name.
func addExample(site tree, folder string) error {
	if folder == "" {
		return nil
	}
	files := tree{}
	if err := readFolder(files, folder, ""); err != nil {
		return err
	}
	index := exampleIndex{Files: []exampleFile{}}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if strings.HasSuffix(name, ".md") {
			continue // what the folder says about itself
		}
		sum := sha256.Sum256(files[name])
		index.Files = append(index.Files, exampleFile{name, len(files[name]), hex.EncodeToString(sum[:])})
		site["example/"+name] = files[name]
	}
	listing, err := json.MarshalIndent(index, "", " ")
	site["example/index.json"] = append(listing, '\n')
	return err
}

// addTemplate copies the form for delimited text.
func addTemplate(site tree, file string) (err error) {
	if file == "" {
		return nil
	}
	site["template.csv"], err = os.ReadFile(file)
	return err
}
