package repotest

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the import path of the repository.
const module = "hotroom"

// root finds the folder with go.mod.
func root(t *testing.T) string {
	t.Helper()
	folder, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(folder, "go.mod")); err == nil {
			return folder
		}
		parent := filepath.Dir(folder)
		if parent == folder {
			t.Fatal("there is no go.mod above this package")
		}
		folder = parent
	}
}

// files lists the repository's files with slashes, without what git keeps.
func files(t *testing.T, root string) []string {
	t.Helper()
	var list []string
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && (name == ".git" || name != "." && strings.HasPrefix(path.Base(name), ".")) {
			return fs.SkipDir
		}
		if entry.Type().IsRegular() {
			list = append(list, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// source is one Go file: where it is, what it imports, whether it carries the
// package comment.
type source struct {
	file, folder string
	imports      []string
	doc          *ast.CommentGroup
}

// sources parses the heads of all Go files but the tests.
func sources(t *testing.T) []source {
	t.Helper()
	top := root(t)
	var list []source
	for _, name := range files(t, top) {
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") || slices.Contains(strings.Split(name, "/"), "testdata") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(top, filepath.FromSlash(name)), nil, parser.ImportsOnly|parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		s := source{file: name, folder: path.Dir(name), doc: f.Doc}
		for _, i := range f.Imports {
			imported, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			s.imports = append(s.imports, imported)
		}
		list = append(list, s)
	}
	if len(list) < 20 {
		t.Fatalf("only %d Go files were found", len(list))
	}
	return list
}

// in reports whether a folder is another one or below it.
func in(folder, above string) bool {
	return folder == above || strings.HasPrefix(folder, above+"/")
}
