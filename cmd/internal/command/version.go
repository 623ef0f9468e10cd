package command

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"runtime/debug"
	"strings"
)

// Version is the program's version as answers name it: the module's, or the
// revision that it was built from.
func Version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	return revision(info.Settings)
}

// revision is the one that a build was made from, marked where files had been
// changed since.
func revision(settings []debug.BuildSetting) string {
	v, mark := unversioned, ""
	for _, s := range settings {
		switch {
		case s.Key == "vcs.revision" && len(s.Value) >= 12:
			v = s.Value[:12]
		case s.Key == "vcs.modified" && s.Value == "true":
			mark = changed
		}
	}
	return v + mark
}

const (
	unversioned = "devel"  // every build outside of version control
	changed     = "+dirty" // the go command's mark of files that were changed since the revision
)

// build tells the builds of one version apart: it is "" for a version that
// stands for one state of the program, else the SHA-256 of this binary. All of
// the binary is read for that, for which a single answer has no time.
func build(version string) string {
	if version != unversioned && version != "unknown" && !strings.HasSuffix(version, changed) {
		return ""
	}
	binary, err := os.Executable()
	if err != nil {
		return ""
	}
	return digest(binary)
}

// digest is the SHA-256 of a file; "" where it cannot be read.
func digest(name string) string {
	f, err := os.Open(name)
	if err != nil {
		return ""
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return ""
	}
	return hex.EncodeToString(h.Sum(nil))
}
