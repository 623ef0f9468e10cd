package repotest

import (
	"slices"
	"strings"
	"testing"
)

// A ban says what some folders may not import.
type ban struct {
	why    string
	in     []string // the folders it holds for, with all below
	except []string // files and folders that it does not hold for
	own    []string // folders of ours that may not be imported, with all below
	others []string // modules that may not be imported, with all below
	allow  []string // folders of ours that may be imported nevertheless
}

func bans() []ban {
	return []ban{
		{
			why: "rules know facts, not knowledge or answers", in: []string{"rules"},
			own: []string{"knowledge", "advisor", "cmd"}, allow: []string{"knowledge/document", "knowledge/quantity", "knowledge/nearest"},
		},
		{
			why: "knowledge knows nothing of rules or answers", in: []string{"knowledge"},
			own: []string{"rules", "advisor", "cmd"},
		},
		{why: "the advisor has no doors", in: []string{"advisor"}, own: []string{"cmd"}},
		{
			why: "a leaf imports nothing of ours", in: []string{"knowledge/quantity", "knowledge/nearest", "rules/facts", "cmd/internal/harmless", "advisor/thermocouple", "advisor/bench/fit"},
			own: []string{""},
		},
		{
			why: "charts know nothing of boards", in: []string{"cmd/internal/chart"},
			own: []string{""}, allow: []string{"cmd/internal/harmless"},
		},
		{
			why: "a leaf imports nothing of ours", in: []string{"knowledge/document", "advisor/lookup"},
			own: []string{""}, allow: []string{"knowledge/nearest"},
		},
		{
			why: "the line reader is kept behind an interface", in: []string{""},
			except: []string{"cmd/internal/prompt/terminal.go"}, others: []string{"github.com/chzyer/readline"},
		},
		{
			why: "the web framework is kept behind our own types", in: []string{""},
			except: []string{"cmd/internal/web"}, others: []string{"github.com/labstack"},
		},
		{
			why: "the web framework's middleware trusts what clients forward", in: []string{""},
			others: []string{"github.com/labstack/echo/v4/middleware"},
		},
		{
			why: "only the command line and its prompt know the flag library", in: []string{""},
			except: []string{"cmd/internal/command"}, others: []string{"github.com/spf13"},
		},
	}
}

// breaks tells which import of a file a ban forbids, or "".
func (b ban) breaks(s source) string {
	inside := func(folders []string, name string) bool {
		return slices.ContainsFunc(folders, func(f string) bool { return f == "" || in(name, f) })
	}
	if !inside(b.in, s.folder) || inside(b.except, s.folder) || slices.Contains(b.except, s.file) {
		return ""
	}
	for _, imported := range s.imports {
		ours, own := strings.CutPrefix(imported, module+"/")
		switch {
		case own && inside(b.own, ours) && !inside(b.allow, ours) && ours != s.folder:
			return imported
		case !own && inside(b.others, imported):
			return imported
		}
	}
	return ""
}

func TestImports(t *testing.T) {
	all := sources(t)
	for _, b := range bans() {
		for _, s := range all {
			if imported := b.breaks(s); imported != "" {
				t.Errorf("%s imports %s: %s", s.file, imported, b.why)
			}
		}
	}
}

// Every ban can be broken: the test is not blind.
func TestBansBite(t *testing.T) {
	for _, tt := range []struct {
		file, folder, imported string
		broken                 bool
	}{
		{"rules/x.go", "rules", "hotroom/knowledge", true},
		{"rules/expression/x.go", "rules/expression", "hotroom/advisor", true},
		{"rules/x.go", "rules", "hotroom/knowledge/document", false},
		{"rules/x.go", "rules", "hotroom/rules/facts", false},
		{"knowledge/x.go", "knowledge", "hotroom/rules", true},
		{"knowledge/x.go", "knowledge", "hotroom/knowledge/document", false},
		{"advisor/x.go", "advisor", "hotroom/cmd/internal/web", true},
		{"rules/facts/x.go", "rules/facts", "hotroom/rules", true},
		{"knowledge/document/x.go", "knowledge/document", "hotroom/knowledge/quantity", true},
		{"knowledge/document/x.go", "knowledge/document", "hotroom/knowledge/nearest", false},
		{"cmd/internal/prompt/x.go", "cmd/internal/prompt", "github.com/chzyer/readline", true},
		{"cmd/internal/prompt/terminal.go", "cmd/internal/prompt", "github.com/chzyer/readline", false},
		{"cmd/internal/command/x.go", "cmd/internal/command", "github.com/labstack/echo/v4", true},
		{"cmd/internal/web/x.go", "cmd/internal/web", "github.com/labstack/echo/v4", false},
		{"cmd/internal/web/x.go", "cmd/internal/web", "github.com/labstack/echo/v4/middleware", true},
		{"advisor/x.go", "advisor", "github.com/spf13/cobra", true},
	} {
		s := source{file: tt.file, folder: tt.folder, imports: []string{tt.imported}}
		broken := slices.ContainsFunc(bans(), func(b ban) bool { return b.breaks(s) != "" })
		if broken != tt.broken {
			t.Errorf("%s importing %s: broken %v, want %v", tt.file, tt.imported, broken, tt.broken)
		}
	}
}

func TestPackageComments(t *testing.T) {
	comments := map[string][]string{}
	for _, s := range sources(t) {
		comments[s.folder] = append(comments[s.folder], []string{}...)
		if s.doc != nil {
			comments[s.folder] = append(comments[s.folder], s.file)
		}
	}
	for folder, files := range comments {
		switch len(files) {
		case 0:
			t.Errorf("%s: no file has a package comment", folder)
		case 1:
		default:
			t.Errorf("%s: %d files have a package comment, one should: %s", folder, len(files), strings.Join(files, ", "))
		}
	}
}
