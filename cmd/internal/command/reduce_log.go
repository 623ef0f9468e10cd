package command

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"hotroom/advisor/bench/logfile"
	"hotroom/knowledge"
	"hotroom/knowledge/document"
)

// logFile is a log to read; the path is empty for the standard input.
type logFile struct{ name, path string }

// logEndings are the files of a folder that are taken for logs.
func logEndings() []string { return []string{".csv", ".tsv", ".txt", ".log", ".xlsx"} }

// logs lists the logs that the arguments name; a folder stands for the logs in
// it.
func (s *Session) logs(args []string) ([]logFile, error) {
	var list []logFile
	for _, arg := range args {
		if arg == "-" {
			list = append(list, logFile{name: "standard input"})
			continue
		}
		info, err := os.Stat(arg)
		if err != nil {
			return nil, fmt.Errorf("the log %q cannot be read: %w: give a file, a folder, or - for the standard input", arg, document.Reason(err))
		}
		if !info.IsDir() {
			list = append(list, logFile{arg, arg})
			continue
		}
		found, err := logsIn(arg)
		if err != nil {
			return nil, err
		}
		list = append(list, found...)
	}
	return list, nil
}

func logsIn(folder string) ([]logFile, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil, fmt.Errorf("the folder %q cannot be read: %w", folder, document.Reason(err))
	}
	var list []logFile
	for _, e := range entries {
		if e.Type().IsRegular() && slices.Contains(logEndings(), strings.ToLower(filepath.Ext(e.Name()))) {
			path := filepath.Join(folder, e.Name())
			list = append(list, logFile{path, path})
		}
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("the folder %q holds no logs: they end in %s", folder, strings.Join(logEndings(), ", "))
	}
	return list, nil
}

// largeLog is the size in bytes from which reading a log shows its progress.
const largeLog = 4 << 20

// readLog reads a log and shows on a terminal how far it is.
func (s *Session) readLog(ctx context.Context, log logFile, roomC *float64) (l *logfile.Log, err error) {
	o := logfile.Options{RoomC: roomC}
	from := s.In
	if log.path != "" {
		f, err := os.Open(log.path)
		if err != nil {
			return nil, fmt.Errorf("the log %q cannot be read: %w: give a file, a folder, or - for the standard input", log.path, document.Reason(err))
		}
		defer func() { _ = f.Close() }() // it was only read
		if info, err := f.Stat(); err == nil {
			o.Size = info.Size()
		}
		from = breakable{ctx, f}
	}
	if s.ErrTerminal && !s.Plain && o.Size > largeLog {
		wipe := func() { _, _ = io.WriteString(s.Err, "\r"+strings.Repeat(" ", 60)+"\r") }
		defer wipe()
		o.Progress = func(read int64) {
			_, _ = fmt.Fprintf(s.Err, "\rreading %s: %d %%", shortName(filepath.Base(log.name)), 100*read/o.Size) // nowhere left to report to
		}
	}
	l, err = logfile.Read(ctx, log.name, from, o)
	if err != nil {
		return nil, errors.Join(err)
	}
	return l, nil
}

// shortName keeps a file's name within the line that shows the progress.
func shortName(name string) string {
	name = safe(name)
	if runes := []rune(name); len(runes) > 40 {
		return string(runes[:40]) + "…"
	}
	return name
}

// dateRun gives a run without a date the log's own, else the day that the file
// was last written, else today, and says which of the last two it was.
func (s *Session) dateRun(run *knowledge.Run, start time.Time, log logFile, now func() time.Time) {
	switch {
	case run.Date != "":
		return
	case !start.IsZero():
		run.Date = start.Format(time.DateOnly)
		return
	}
	day, what := now(), "today's"
	if info, err := os.Stat(log.path); log.path != "" && err == nil {
		day, what = info.ModTime(), "that of the file"
	}
	run.Date = day.Format(time.DateOnly)
	s.Say("%s tells no date: %s is taken, %s; --date gives another", log.name, what, run.Date)
}
