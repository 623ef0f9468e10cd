package page

import (
	"os"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
)

// nasty is what a name in the knowledge may hold: markup, a script, an
// attribute's end, a template, a turned direction of writing.
const nasty = `X"'><script>alert(1)</script><img src=x onerror=alert(2)> {{.}} ` + "\u202e\u200fend"

// nastyWorld is the demo with nasty names everywhere.
func nastyWorld(t *testing.T) *advisor.Snapshot {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../../knowledge/demo")); err != nil {
		t.Fatal(err)
	}
	quoted := `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(nasty) + `"`
	for file, names := range map[string][]string{
		"boards.toml":       {`"Wexholm Brook"`, `"Wexholm"`, `"invented maker's page for the Wexholm Brook; parts read off the board"`},
		"chips.toml":        {`"Varnholt V10"`},
		"surroundings.toml": {`"airy tower"`, `"tower air cooler"`, `"all-core render"`},
	} {
		text, err := os.ReadFile(dir + "/" + file)
		if err != nil {
			t.Fatal(err)
		}
		out := string(text)
		for _, name := range names {
			out = strings.ReplaceAll(out, "= "+name+"\n", "= "+quoted+"\n")
		}
		if out == string(text) {
			t.Fatalf("%s holds none of %v", file, names)
		}
		if err := os.WriteFile(dir+"/"+file, []byte(out), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s, problems, err := advisor.Open(advisor.Source{Folder: dir}, "test")
	if err != nil || problems.Fatal() {
		t.Fatal(err, problems)
	}
	return s
}

func TestNamesAreShownAsText(t *testing.T) {
	s := nastyWorld(t)
	source := Source{Snapshot: s, Names: sentence.NewNames(s.Base()), Site: Site{Home: "/", Assets: "/"}}
	pages := map[string][]byte{}
	for name, asked := range map[string]Asked{
		"answer":  {Said: sentence.Spoken{Board: "brook", Chip: "v10", Room: "38"}},
		"ranking": {Kind: Ranking, Said: sentence.Spoken{Chip: "v10"}},
		"compare": {Kind: Compare, Boards: []string{"brook", "slate"}, Said: sentence.Spoken{Chip: "v10"}},
		"sweep":   {Kind: Sweep, Said: sentence.Spoken{Board: "brook", Chip: "v10"}},
		"wrong":   {Wrong: nasty},
		"unknown": {Said: sentence.Spoken{Board: nasty, Chip: nasty, Room: nasty}},
		"text":    {Text: nasty},
	} {
		body, _, err := source.Page(t.Context(), asked)
		if err != nil {
			t.Fatal(err)
		}
		pages[name] = body
	}
	a, err := advisor.Advise(t.Context(), s, advisor.Question{Board: "brook", Chip: "v10"})
	if err != nil {
		t.Fatal(err)
	}
	if pages["card"], err = Card(s.Base(), a, `/?a="><script>`); err != nil {
		t.Fatal(err)
	}
	for name, body := range pages {
		text := string(body)
		for _, bad := range []string{"<script>alert", "<img src=x", "\u202e", "\u200f", "onerror=alert(2)>", `"'>`} {
			if strings.Contains(text, bad) {
				t.Errorf("%s holds %q", name, bad)
			}
		}
		if !strings.Contains(text, `\u202e`) || !strings.Contains(text, "&lt;script&gt;") {
			t.Errorf("%s does not show the name as text", name)
		}
	}
}
