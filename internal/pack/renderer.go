package pack

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
)

// scriptConstant is the name under which the renderer (github.com/vugu/vugu/domrender) keeps its helper script.
const scriptConstant = "jsHelperScript"

// rendererScript reads the helper script out of the renderer's source, so that the page can load it as a file. The renderer
// passes the same script to eval, which the page's policy forbids.
func rendererScript(module string) ([]byte, error) {
	files, err := filepath.Glob(filepath.Join(module, "domrender", "*.go"))
	if err != nil {
		return nil, err
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		source, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		if script, ok := stringConstant(source, scriptConstant); ok {
			return []byte(script + "\n"), nil
		}
	}
	return nil, fmt.Errorf("the renderer has no constant %s in %d files\nhint: see where this release of vugu keeps its helper script",
		scriptConstant, len(files))
}

// stringConstant finds a package constant given by one string literal.
func stringConstant(source *ast.File, name string) (string, bool) {
	for _, declaration := range source.Decls {
		group, ok := declaration.(*ast.GenDecl)
		if !ok || group.Tok != token.CONST {
			continue
		}
		for _, spec := range group.Specs {
			value, ok := spec.(*ast.ValueSpec)
			if !ok || len(value.Values) != 1 || value.Names[0].Name != name {
				continue
			}
			literal, ok := value.Values[0].(*ast.BasicLit)
			if !ok || literal.Kind != token.STRING {
				continue
			}
			text, err := strconv.Unquote(literal.Value)
			return text, err == nil
		}
	}
	return "", false
}
