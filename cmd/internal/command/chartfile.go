package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"hotroom/knowledge/document"

	"github.com/spf13/pflag"
)

// picturable is a chart that can be written to a file.
type picturable interface {
	SVG(w io.Writer) error
	PNG(w io.Writer) error
}

// bindChart declares --chart.
func bindChart(flags *pflag.FlagSet) *string {
	return flags.String("chart", "", "write the chart to `FILE`.svg or .png")
}

// checkChart refuses a file that no chart can be written to, before any work.
func checkChart(file string) error {
	switch ending := strings.ToLower(filepath.Ext(file)); {
	case file == "" || ending == ".svg" || ending == ".png":
		return nil
	case ending == "":
		return &usage{fmt.Sprintf("--chart %q has no ending: give a name that ends in .svg or .png", file)}
	default:
		return &usage{fmt.Sprintf("--chart %q ends in %s: a chart is written as .svg or .png", file, ending)}
	}
}

// writeChart writes a chart to the file that was asked for, if any, and says
// so.
func (s *Session) writeChart(file string, c picturable) error {
	if file == "" {
		return nil
	}
	draw := c.SVG
	if strings.EqualFold(filepath.Ext(file), ".png") {
		draw = c.PNG
	}
	if err := writeWhole(file, draw); err != nil {
		return unplaced("the chart", "--chart", file, err)
	}
	s.Say("wrote the chart to %s", file)
	return nil
}

// unplaced says that a file could not be written. What was there is there.
func unplaced(what, flag, file string, err error) error {
	return fmt.Errorf("%s cannot be written to %q (%w): make room or a folder there, or choose another file with %s", what, file, document.Reason(err), flag)
}

// writeWhole writes a file beside its place and moves it there when it is
// whole, so that nobody ever reads half of it. A link stays one, and a device
// or a pipe is written to as it is.
func writeWhole(file string, write func(io.Writer) error) (err error) {
	if real, err := filepath.EvalSymlinks(file); err == nil {
		file = real
	}
	if info, err := os.Stat(file); err == nil && !info.Mode().IsRegular() {
		return writeInto(file, write)
	}
	f, err := os.CreateTemp(filepath.Dir(file), "."+filepath.Base(file)+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = os.Remove(f.Name()) // it may never have been whole
		}
	}()
	if err := errors.Join(write(f), f.Chmod(0o644), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), file)
}

func writeInto(file string, write func(io.Writer) error) error {
	f, err := os.OpenFile(file, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return errors.Join(write(f), f.Close())
}
