package command

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// sketchy is a chart that breaks off, or not.
type sketchy struct{ err error }

func (s sketchy) SVG(w io.Writer) error {
	_, _ = io.WriteString(w, "<svg/>") // the error below is what counts
	return s.err
}

func (s sketchy) PNG(w io.Writer) error { return s.SVG(w) }

// A chart is written whole, or what was there stays.
func TestChartIsWrittenWhole(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "chart.svg")
	var messages strings.Builder
	s := NewSession(quiet())
	s.Err = &messages
	if err := s.writeChart(file, sketchy{}); err != nil {
		t.Fatal(err)
	}
	if want := "wrote the chart to " + file; strings.Join(strings.Fields(messages.String()), " ") != want {
		t.Errorf("said %q", messages.String())
	}
	err := s.writeChart(file, sketchy{errors.New("out of ink")})
	if err == nil || err.Error() != "the chart cannot be written to \""+file+"\" (out of ink): make room or a folder there, or choose another file with --chart" {
		t.Errorf("got %v", err)
	}
	if text, err := os.ReadFile(file); err != nil || string(text) != "<svg/>" {
		t.Errorf("left %q, %v", text, err)
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) != 1 {
		t.Errorf("left behind: %v, %v", left, err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o644 {
		t.Errorf("mode: %v, %v", info.Mode(), err)
	}
}

func TestCheckChart(t *testing.T) {
	for file, want := range map[string]string{
		"": "", "a.svg": "", "a.b.PNG": "",
		"a":      `--chart "a" has no ending: give a name that ends in .svg or .png`,
		"a.pdf":  `--chart "a.pdf" ends in .pdf: a chart is written as .svg or .png`,
		"svg":    `--chart "svg" has no ending: give a name that ends in .svg or .png`,
		"a.svgz": `--chart "a.svgz" ends in .svgz: a chart is written as .svg or .png`,
	} {
		got := ""
		if err := checkChart(file); err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("%q: %s, want %s", file, got, want)
		}
	}
}
