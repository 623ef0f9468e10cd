package repotest

import (
	"encoding/csv"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/knowledge"
	"hotroom/rules"
)

// The board, the run and the rule that the README shows are put into a copy of
// the demo; it must load without a word, and the board must be answered for.
func TestReadmeExamplesLoad(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root(t), "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	toml, rows := fenced(string(text), "toml"), fenced(string(text), "csv")
	if len(toml) != 2 || len(rows) != 1 {
		t.Fatalf("the README shows %d TOML and %d CSV examples, want a board, a rule and a run", len(toml), len(rows))
	}
	folder := t.TempDir()
	if err := os.CopyFS(folder, knowledge.Demo()); err != nil {
		t.Fatal(err)
	}
	_, catalogue := rules.Default()
	add(t, filepath.Join(folder, "boards.toml"), toml[0])
	add(t, filepath.Join(folder, "rules.toml"), string(catalogue)+toml[1])
	add(t, filepath.Join(folder, "runs.csv"), reordered(t, rows[0]))
	s, problems, err := advisor.Open(advisor.Source{Folder: folder}, "test")
	if err != nil || len(problems) > 0 {
		t.Fatal(err, problems)
	}
	a, err := advisor.Advise(t.Context(), s, advisor.Question{Board: "kettle", Chip: "v10"})
	if err != nil || a.Evidence != advisor.Measured {
		t.Errorf("the board is answered for with %v, %q", err, a.Evidence)
	}
}

// fenced gives the contents of the blocks fenced with a language.
func fenced(text, language string) []string {
	var list []string
	for _, part := range strings.Split(text, "```"+language+"\n")[1:] {
		block, _, _ := strings.Cut(part, "```")
		list = append(list, "\n"+block)
	}
	return list
}

func add(t *testing.T, name, text string) {
	t.Helper()
	f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := f.WriteString(text); err != nil {
		t.Fatal(err)
	}
}

// reordered writes the example's run in the order of the demo's header.
func reordered(t *testing.T, example string) string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(strings.TrimSpace(example))).ReadAll()
	if err != nil || len(rows) != 2 {
		t.Fatalf("the run of the README cannot be read: %v", err)
	}
	values := map[string]string{}
	for i, column := range rows[0] {
		values[column] = rows[1][i]
	}
	demo, err := fs.ReadFile(knowledge.Demo(), "runs.csv")
	if err != nil {
		t.Fatal(err)
	}
	header, _, _ := strings.Cut(string(demo), "\n")
	var cells []string
	for _, column := range strings.Split(header, ",") {
		cells = append(cells, values[column])
	}
	return strings.Join(cells, ",") + "\n"
}
