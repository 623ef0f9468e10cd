package main

import (
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
)

// A folder that somebody may not write to is said to be one, and stays as it
// is. Root may write anywhere, so as root the program is run as nobody.
func TestFaultForbiddenFolder(t *testing.T) {
	dir := t.TempDir()
	folder := demoIn(t, filepath.Join(dir, "bench"))
	older, newer := guides(t)
	older.publish(t, filepath.Join(dir, "guide"))
	as := func(c *exec.Cmd) *exec.Cmd { return c }
	if os.Geteuid() == 0 {
		const nobody = 65534 // common practice, no source
		program := forAll(t)
		as = func(c *exec.Cmd) *exec.Cmd {
			c.Path = program
			c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
			return c
		}
		for _, f := range []string{filepath.Dir(dir), filepath.Dir(newer.folder), filepath.Dir(filepath.Dir(newer.folder))} {
			if err := os.Chmod(f, 0o755); err != nil { //nolint:gosec // of this test alone
				t.Fatal(err)
			}
		}
		readable(t, newer.folder)
		readable(t, dir)
	}
	modes(t, dir, 0o555)
	t.Cleanup(func() { modes(t, dir, 0o755) }) // so that it can be removed
	unwritable(t, dir, folder, newer, "permission denied", as)
}

// unwritable tries everything that writes into a folder that refuses it.
func unwritable(t *testing.T, dir, folder string, g guide, why string, as func(*exec.Cmd) *exec.Cmd) {
	t.Helper()
	before := files(t, dir)
	try(t, as(recorded(folder, "late"))).wants(t, "record", 1, "hotroom: the knowledge folder cannot be written to, and the run was not recorded (open "+folder+
		"/.runs.csv.lock: "+why+"): let yourself write there, or record in a folder where you may")
	try(t, as(hotroom("reply", os.DevNull, "--out", dir+"/answers.md"))).wants(t, "reply", 1,
		`hotroom: the answers cannot be written to "`+dir+`/answers.md" (`+why+`): make room or a folder there, or choose another file with --out`)
	try(t, as(hotroom("sweep", "--board", "slate", "--chip", "v10", "--chart", dir+"/chart.svg"))).wants(t, "sweep", 1,
		`hotroom: the chart cannot be written to "`+dir+`/chart.svg" (`+why+`): make room or a folder there, or choose another file with --chart`)
	try(t, as(g.command(filepath.Join(dir, "new")))).wants(t, "publish into a new folder", 1, `hotroom: the folder "`+dir+`/new" cannot be made (`+why+`): choose another with --out`)
	says := regexp.MustCompile(`^hotroom: \S+ cannot be written \(` + why + `\): every file in "` + dir + `/guide" is whole, but not all are of this guide: mend that and publish again$`)
	if o := try(t, as(g.command(filepath.Join(dir, "guide")))); o.code != 1 || !says.MatchString(o.messages) {
		t.Errorf("publish: exit code %d, it says %s", o.code, o.messages)
	}
	if o := try(t, as(hotroom("ask", "--knowledge", folder, "--board", "slate", "--chip", "v10"))); o.code != 0 || o.out == "" {
		t.Errorf("reading alone fails: %+v", o)
	}
	if !maps.Equal(files(t, dir), before) {
		t.Error("something was changed")
	}
}

// modes sets the mode of a folder and of all folders in it.
func modes(t *testing.T, dir string, mode os.FileMode) {
	t.Helper()
	walk(t, dir, func(path string, folder bool) error {
		if !folder {
			return nil
		}
		return os.Chmod(path, mode)
	})
}

// readable lets everybody read what lies in a folder.
func readable(t *testing.T, dir string) {
	t.Helper()
	walk(t, dir, func(path string, folder bool) error {
		if folder {
			return os.Chmod(path, 0o755) //nolint:gosec // of this test alone
		}
		return os.Chmod(path, 0o644) //nolint:gosec // of this test alone
	})
}

func walk(t *testing.T, dir string, do func(path string, folder bool) error) {
	t.Helper()
	err := filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
		if err != nil {
			return err
		}
		return do(path, info.IsDir())
	})
	if err != nil {
		t.Fatal(err)
	}
}

// forAll copies the program to where everybody may run it.
func forAll(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "hotroom")
	for _, d := range []string{filepath.Dir(dir), dir} {
		if err := os.Chmod(d, 0o755); err != nil { //nolint:gosec // of this test alone
			t.Fatal(err)
		}
	}
	from, err := exec.LookPath("hotroom")
	if err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(from)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	out, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY, 0o755)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(out, in); err != nil {
		t.Fatal(err)
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// A limit on the size of files stands for whatever else ends a write early.
func TestFaultFileSizeLimit(t *testing.T) {
	folder := ownFolder(t)
	before := read(t, folder, "runs.csv")
	c := recorded(folder, "late")
	limited := exec.Command("sh", append([]string{"-c", `ulimit -f 2; exec "$@"`, "sh"}, c.Args...)...) // in units of 512 bytes, or of 1024
	try(t, limited).wants(t, "record", 1, "hotroom: the run was not recorded, and runs.csv is as it was (write "+folder+"/.runs.csv.new: file too large): mend that and record it again")
	if read(t, folder, "runs.csv") != before {
		t.Error("runs.csv was changed")
	}
	for name := range files(t, folder) {
		if strings.HasSuffix(name, ".new") {
			t.Errorf("%s is left behind", name)
		}
	}
	try(t, recorded(folder, "late")).wants(t, "without the limit", 0, "recorded as late")
}
