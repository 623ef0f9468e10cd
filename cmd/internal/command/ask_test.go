package command

import (
	"context"
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

// BenchmarkAsk is one whole command line: load, learn, answer, print.
func BenchmarkAsk(b *testing.B) {
	for b.Loop() {
		args := []string{"ask", "--board", "slate", "--chip", "v10", "--room", "32"}
		if code := Main(context.Background(), args, quiet(), nil); code != exitAnswered {
			b.Fatalf("exit code %d", code)
		}
	}
}
