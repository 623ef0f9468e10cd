package command

import (
	"context"
	"errors"
	"io"
	"strings"
	"testing"
)

// quiet gives streams that nobody reads.
func quiet() Streams {
	return Streams{
		In: strings.NewReader(""), Out: io.Discard, Err: io.Discard,
		Width:  func() int { return 0 },
		Getenv: func(string) string { return "" },
	}
}

// full is a disk without space.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestAnswerCannotBeWritten(t *testing.T) {
	var messages strings.Builder
	s := quiet()
	s.Out, s.Err = full{}, &messages
	for _, args := range [][]string{
		{"ask", "--board", "slate", "--chip", "v10"},
		{"ask", "--board", "slate", "--chip", "v10", "--json"},
		{"facts"},
		{"check", "--json"},
		{"help"},
		{"--help"},
		{"ask", "--help"},
	} {
		messages.Reset()
		if code := Main(context.Background(), args, s, nil); code != exitFailed {
			t.Errorf("%v: exit code %d", args, code)
		}
		if want := "hotroom: the answer cannot be written (no space left on device): make room where\n  it goes, or send it elsewhere\n"; messages.String() != want {
			t.Errorf("%v: %q, want %q", args, messages.String(), want)
		}
	}
}

func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var messages strings.Builder
	s := quiet()
	s.Err = &messages
	if code := Main(ctx, []string{"ask", "--board", "slate", "--chip", "v10"}, s, nil); code != exitFailed || messages.String() != "hotroom: interrupted\n" {
		t.Errorf("exit code %d, %q", code, messages.String())
	}
}

// BenchmarkAsk is one whole command line: load, learn, answer, print.
func BenchmarkAsk(b *testing.B) {
	for b.Loop() {
		args := []string{"ask", "--board", "slate", "--chip", "v10", "--room", "32"}
		if code := Main(context.Background(), args, quiet(), nil); code != exitAnswered {
			b.Fatalf("exit code %d", code)
		}
	}
}
