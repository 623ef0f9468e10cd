package command

import (
	"os"
	"path/filepath"
	"runtime/debug"
	"testing"
)

func TestRevision(t *testing.T) {
	for want, settings := range map[string][]debug.BuildSetting{
		"devel":              {{Key: "vcs", Value: "git"}},
		"0123456789ab":       {{Key: "vcs.revision", Value: "0123456789abcdef"}, {Key: "vcs.modified", Value: "false"}},
		"0123456789ab+dirty": {{Key: "vcs.revision", Value: "0123456789abcdef"}, {Key: "vcs.modified", Value: "true"}},
	} {
		if got := revision(settings); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
}

// Only versions that any number of builds may have need more to be told apart.
func TestBuild(t *testing.T) {
	for version, wanted := range map[string]bool{
		"devel": true, "unknown": true, "0123456789ab+dirty": true, "v1.2.4-0.20260101000000-0123456789ab+dirty": true,
		"v1.2.3": false, "0123456789ab": false,
	} {
		got := build(version)
		if got != build(version) || wanted != (len(got) == 64) {
			t.Errorf("%s: the build is %q", version, got)
		}
	}
}

func TestDigest(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "file")
	if err := os.WriteFile(file, []byte("abc"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		file:                          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", // the example "abc" of FIPS 180-4, from memory
		filepath.Join(folder, "none"): "",
		folder:                        "",
	} {
		if got := digest(name); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
	}
}
