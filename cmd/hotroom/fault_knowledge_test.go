package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

const slateTarget = "/v1/advice?board=slate&chip=v10&room=32"

// While files are written half, are gone, or the whole folder is, a server
// answers what it answered before, says what is wrong, and takes what is good
// again without being told.
func TestFaultHalfWrittenWhileServing(t *testing.T) {
	folder := ownFolder(t)
	boards := filepath.Join(folder, "boards.toml")
	whole := read(t, boards)
	s := serve(t, "--knowledge", folder, "--log", "events")
	_, first := s.get(t, slateTarget)
	broken := func(what, problem string) {
		t.Helper()
		until(t, what+" is noticed", func() bool {
			status, body := s.get(t, "/readyz")
			return status == 200 && regexp.MustCompile(`"outcome":"failed","problems":\["`+problem).MatchString(body)
		})
		if status, body := s.get(t, slateTarget); status != 200 || body != first {
			t.Errorf("%s: %d, another answer: %.300s", what, status, body)
		}
	}
	mended := func(what string) {
		t.Helper()
		until(t, what+" is noticed", func() bool {
			_, body := s.get(t, "/readyz")
			return strings.Contains(body, `"outcome":"unchanged"`)
		})
	}
	mended("the first reading")

	for _, share := range []int{2, 3, 5} { // cut in the middle of a line
		write(t, boards, whole[:len(whole)/share])
		broken("a half-written file", `boards\.toml:\d+:\d+: |runs\.csv:\d+:\d+: `)
		write(t, boards, whole)
		mended("the whole file")
	}
	if err := os.Remove(boards); err != nil {
		t.Fatal(err)
	}
	broken("a file that is gone", `runs\.csv:\d+:\d+: there is no board .*, nor any other: the folder has no boards\.toml`)
	write(t, boards, whole)
	mended("the file")
	if err := os.Rename(folder, folder+"~"); err != nil {
		t.Fatal(err)
	}
	broken("a folder that is gone", `there is no knowledge folder`)
	if err := os.Rename(folder+"~", folder); err != nil {
		t.Fatal(err)
	}
	mended("the folder")
	s.stop(t)
}

// While a file comes and goes under them, commands give the whole answer or say
// which file is missing: never something between, and never a breakdown.
func TestFaultFileVanishes(t *testing.T) {
	folder := ownFolder(t)
	ask := func() outcome {
		return try(t, hotroom("ask", "--knowledge", folder, "--board", "slate", "--chip", "v10", "--room", "32", "--json"))
	}
	whole := ask()
	if whole.code != 0 {
		t.Fatalf("%+v", whole)
	}
	for _, name := range []string{"boards.toml", "chips.toml", "stages.toml"} {
		file := filepath.Join(folder, name)
		stop, stopped := make(chan struct{}), make(chan error, 1)
		go func() { stopped <- comeAndGo(file, stop) }()
		answered, refused := 0, 0
		for range 15 {
			switch o := ask(); {
			case o.code == 0 && o.out == whole.out:
				answered++
			case o.code == 1 && o.out == "" && strings.Contains(o.messages, name):
				refused++
			default:
				t.Errorf("%s: exit code %d, it says %s\n%.300s", name, o.code, o.messages, o.out)
			}
		}
		close(stop)
		if err := <-stopped; err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %d answered, %d refused", name, answered, refused)
	}
	// What is listed and gone when it is opened, every time: a link to nothing.
	if err := os.Symlink("nowhere", filepath.Join(folder, "extra.toml")); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Join(folder, "extra"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("nowhere", filepath.Join(folder, "extra", "more.toml")); err != nil {
		t.Fatal(err)
	}
	if o := ask(); o.code != 1 || !strings.Contains(o.messages, "extra/more.toml") || !strings.Contains(o.messages, "the file cannot be read (no such file or directory)") {
		t.Errorf("listed and gone: %+v", o)
	}
}

// comeAndGo moves a file away and back until it is stopped; at the end it is
// there.
func comeAndGo(file string, stop <-chan struct{}) error {
	for {
		select {
		case <-stop:
			return nil
		case <-time.After(2 * time.Millisecond):
		}
		if err := os.Rename(file, file+".away"); err != nil {
			return err
		}
		time.Sleep(2 * time.Millisecond)
		if err := os.Rename(file+".away", file); err != nil {
			return err
		}
	}
}
