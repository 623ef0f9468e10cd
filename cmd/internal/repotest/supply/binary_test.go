package main

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// made builds the program as it is shipped.
func made(t *testing.T) string {
	t.Helper()
	binary := filepath.Join(t.TempDir(), "hotroom")
	c := exec.CommandContext(t.Context(), "go", "build", "-trimpath", "-buildvcs=false", "-o", binary, program)
	c.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS=linux")
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return binary
}

// What is shipped is built once for both.
func TestShipped(t *testing.T) {
	binary := made(t)
	t.Run("binaries", func(t *testing.T) { compare(t, binary) })
	t.Run("bill", func(t *testing.T) { list(t, binary) })
}

func compare(t *testing.T, binary string) {
	t.Helper()
	text, err := os.ReadFile(binary)
	if err != nil {
		t.Fatal(err)
	}
	changed := filepath.Join(t.TempDir(), "changed")
	if err := os.WriteFile(changed, append(bytes.Clone(text), 0), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name string
		args []string
		want string
	}{
		{"the same", []string{binary, binary, "/no/such/folder"}, ""},
		{"one", []string{binary}, "name two builds of the program, then the paths that must not be in them"},
		{"different", []string{binary, changed}, "two builds of the same files differ, from byte "},
		{"a path", []string{binary, binary, "hotroom/cmd/hotroom"}, "the program tells where it was built: hotroom/cmd/hotroom stands at byte "},
		{"no path", []string{binary, binary, ""}, "a path that must not be in the program is empty"},
		{"no program", []string{"binary.go", "binary.go"}, "the program is no ELF file: "},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var out strings.Builder
			err := binaries(tt.args, &out)
			if tt.want == "" && err != nil || tt.want != "" && (err == nil || !strings.HasPrefix(err.Error(), tt.want)) {
				t.Errorf("got %v, want %s\n%s", err, tt.want, out.String())
			}
		})
	}
}

// A program that the system's loader must load is not static.
func TestStaticFails(t *testing.T) {
	text, err := os.ReadFile("/bin/sh")
	if err != nil {
		t.Skip("SKIPPED, NOT CHECKED: this system has no /bin/sh, a program that is not static, to look at: ", err)
	}
	if err := static(text); err == nil || err.Error() != "the program is not static: it names a loader (PT_INTERP)" {
		t.Errorf("got %v", err)
	}
}

// list makes a bill, which is the same twice and holds to the standard's
// schema, which finds mistakes.
func list(t *testing.T, binary string) {
	t.Helper()
	licences, err := licencesByModule(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	one, err := writtenBill(binary, licences)
	if err != nil {
		t.Fatal(err)
	}
	if two, err := writtenBill(binary, licences); err != nil || !bytes.Equal(one, two) {
		t.Errorf("two bills differ: %v", err)
	}
	schema, err := standard(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if err := validate(schema, one); err != nil {
		t.Error(err)
	}
	for from, to := range map[string]string{
		`"type": "library"`: `"type": "book"`, `"id": "BSD-3-Clause"`: `"id": "BSD"`, `"alg": "SHA-256"`: `"alg": "SHA"`, `"name": "std",`: ``,
	} {
		wrong := strings.ReplaceAll(string(one), from, to)
		if wrong == string(one) || validate(schema, []byte(wrong)) == nil {
			t.Errorf("the schema lets %s pass", to)
		}
	}
	complete(t, one, licences)
}

// complete looks for every module of the program in a bill, with its licence.
func complete(t *testing.T, bill []byte, licences map[string]string) {
	t.Helper()
	var read struct {
		Components []struct {
			Name, Version, Purl string
			Licenses            []any
		}
	}
	if err := json.Unmarshal(bill, &read); err != nil {
		t.Fatal(err)
	}
	for _, c := range read.Components {
		if c.Version == "" || len(c.Licenses) != 1 || licences[c.Name] == "" || c.Purl != "pkg:golang/"+c.Name+"@"+c.Version {
			t.Errorf("the bill says %+v", c)
		}
	}
	out, err := goTool(t.Context(), "linux", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", program)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]bool{"std": true}
	for _, path := range strings.Fields(string(out)) {
		want[path] = path != "hotroom"
	}
	delete(want, "hotroom")
	if len(read.Components) != len(want) {
		t.Errorf("the bill has %d components, the program %d", len(read.Components), len(want))
	}
}
