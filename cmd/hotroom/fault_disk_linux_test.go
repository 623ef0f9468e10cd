package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
)

// ownMounts lets this test, and what it starts, mount what nobody else sees.
// The thread is never given back, and the mounts end with it. Subtests would run
// on other threads.
func ownMounts(t *testing.T) {
	t.Helper()
	runtime.LockOSThread()
	err := syscall.Unshare(syscall.CLONE_NEWNS)
	if err == nil {
		err = syscall.Mount("", "/", "", syscall.MS_REC|syscall.MS_PRIVATE, "")
	}
	if err != nil {
		t.Skipf("SKIPPED: nothing can be mounted here (%v), so this fault was NOT tried: run it as root", err)
	}
}

// disk is a small disk of its own.
func disk(t *testing.T, kibibytes int) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("small", dir, "tmpfs", 0, "size="+strconv.Itoa(kibibytes)+"k"); err != nil {
		t.Skipf("SKIPPED: no small disk can be mounted (%v), so a full one was NOT tried", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) }) // it ends with the thread in any case
	return dir
}

// fill leaves so many bytes of a disk free; drain gives the room back.
func fill(t *testing.T, dir string, free int64) (drain func()) {
	t.Helper()
	ballast := filepath.Join(dir, "ballast")
	f, err := os.Create(ballast)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var size int64
	for page := make([]byte, os.Getpagesize()); ; {
		n, err := f.Write(page)
		size += int64(n)
		if err != nil {
			break
		}
	}
	if err := f.Truncate(size - free); err != nil {
		t.Fatal(err)
	}
	return func() {
		if err := os.Remove(ballast); err != nil {
			t.Fatal(err)
		}
	}
}

// On a full disk a run is refused in a sentence, the file keeps its bytes, and
// nothing is left that takes room. The same run is recorded once there is room.
func TestFaultDiskFullRecord(t *testing.T) {
	ownMounts(t)
	dir := disk(t, 256)
	folder := demoIn(t, filepath.Join(dir, "bench"))
	row := rowOf(t, folder, "late")
	before := read(t, folder, "runs.csv")
	for _, free := range []int64{0, int64(os.Getpagesize())} { // nothing can be written, or a part of it
		drain := fill(t, dir, free)
		try(t, recorded(folder, "late")).wants(t, "record", 1, "hotroom: the run was not recorded, and runs.csv is as it was (write "+
			folder+"/.runs.csv.new: no space left on device): mend that and record it again")
		if now := read(t, folder, "runs.csv"); now != before {
			t.Errorf("runs.csv was changed to\n%s", now)
		}
		if _, err := os.Stat(filepath.Join(folder, ".runs.csv.new")); err == nil {
			t.Error("the half-written file is left behind")
		}
		out := filepath.Join(dir, "answers.md")
		asked := hotroom("reply", "-", "--out", out)
		asked.Stdin = strings.NewReader(strings.Repeat("slate with a v10 at 30 C?\n", 200))
		try(t, asked).wants(t, "reply", 1, `hotroom: the answers cannot be written to "`+out+`" (no space left on device): make room or a folder there, or choose another file with --out`)
		chart := filepath.Join(dir, "chart.png")
		try(t, hotroom("rank", "--chip", "v10", "--json", "--knowledge", folder)).wants(t, "rank", 0, "")
		try(t, hotroom("sweep", "--board", "slate", "--chip", "v10", "--chart", chart)).wants(t, "sweep", 1,
			`hotroom: the chart cannot be written to "`+chart+`" (no space left on device): make room or a folder there, or choose another file with --chart`)
		if entries, err := os.ReadDir(dir); err != nil || len(entries) != 2 {
			t.Errorf("left on the disk: %v, %v", entries, err)
		}
		drain()
	}
	try(t, recorded(folder, "late")).wants(t, "record with room", 0, "recorded as late")
	if now := read(t, folder, "runs.csv"); now != before+row {
		t.Errorf("runs.csv is\n%s", now)
	}
}

// On a full disk publish stops with a sentence; each file is that of the guide
// before or of the new one, and once there is room the guide becomes whole.
func TestFaultDiskFullPublish(t *testing.T) {
	ownMounts(t)
	dir := disk(t, 4096)
	older, newer := guides(t)
	out := filepath.Join(dir, "guide")
	older.publish(t, out)
	drain := fill(t, dir, int64(os.Getpagesize()))
	o := try(t, newer.command(out))
	says := regexp.MustCompile(`^hotroom: ` + regexp.QuoteMeta(out) + `/\S+ cannot be written \(no space left on device\): every file in "` +
		regexp.QuoteMeta(out) + `" is whole, but not all are of this guide: mend that and publish again$`)
	if o.code != 1 || !says.MatchString(o.messages) {
		t.Errorf("exit code %d, it says %s", o.code, o.messages)
	}
	if left := eachWhole(t, out, older, newer); left > 0 {
		t.Errorf("%d half-written files are left behind", left)
	}
	drain()
	newer.publish(t, out)
}

// Over HTTP a run that cannot be written is refused without naming the
// server's folders; the log has the reason, and the server lives on.
func TestFaultDiskFullServe(t *testing.T) {
	ownMounts(t)
	dir := disk(t, 256)
	folder := demoIn(t, filepath.Join(dir, "bench"))
	s := serve(t, "--knowledge", folder, "--token-file", tokenFile(t), "--log", "events")
	before := read(t, folder, "runs.csv")
	drain := fill(t, dir, 0)
	status, body, err := s.record("late")
	if err != nil {
		t.Fatal(err)
	}
	want := `"detail":"the run was not recorded: whoever runs the server finds the reason in its log; send the run again after that, with an id, so that it is never there twice","kind":"not-recorded"`
	if status != 503 || !strings.Contains(body, want) || strings.Contains(body, dir) {
		t.Errorf("%d %s", status, body)
	}
	if read(t, folder, "runs.csv") != before {
		t.Error("runs.csv was changed")
	}
	if status, _ := s.get(t, "/v1/advice?board=slate&chip=v10"); status != 200 {
		t.Errorf("the server answers with %d", status)
	}
	until(t, "the reason in the log", func() bool {
		return strings.Contains(s.log(), "runs.csv is as it was (write "+folder+"/.runs.csv.new: no space left on device)")
	})
	drain()
	if status, body, err := s.record("late"); status != 201 {
		t.Errorf("with room: %d %s (%v)", status, body, err)
	}
	if now := read(t, folder, "runs.csv"); !strings.HasPrefix(now, before+"late,") {
		t.Errorf("runs.csv is\n%s", now)
	}
}

// Nothing can be changed on a disk that is mounted to be read.
func TestFaultReadOnlyDisk(t *testing.T) {
	ownMounts(t)
	dir := t.TempDir()
	folder := demoIn(t, filepath.Join(dir, "bench"))
	older, newer := guides(t)
	older.publish(t, filepath.Join(dir, "guide"))
	if err := syscall.Mount(dir, dir, "", syscall.MS_BIND, ""); err != nil {
		t.Skipf("SKIPPED: nothing can be mounted here (%v), so a read-only disk was NOT tried", err)
	}
	t.Cleanup(func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) }) // it ends with the thread in any case
	if err := syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_BIND|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	unwritable(t, dir, folder, newer, "read-only file system", func(c *exec.Cmd) *exec.Cmd { return c })
}
