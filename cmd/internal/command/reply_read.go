package command

import (
	"encoding/csv"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// inquiry is one question of a file.
type inquiry struct {
	line          int // where it stands, from 1
	id, who, text string
	broken        string // why it cannot be read; empty when it can
}

// isCSV decides how a file is read: by its ending, or for the standard input by
// a header with a column "text".
func isCSV(file, text string) bool {
	if file != "-" {
		return strings.EqualFold(filepath.Ext(file), ".csv")
	}
	first, _, _ := strings.Cut(text, "\n")
	return strings.Contains(first, ",") && slices.Contains(header(strings.Split(strings.TrimSpace(first), ",")), "text")
}

// inquiries lists the questions of a file; a line that is broken stays among
// them and says why.
func inquiries(text string, table bool) []inquiry {
	if table {
		return fromTable(text)
	}
	var list []inquiry
	for i, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			list = append(list, inquiry{line: i + 1, text: line}.checked())
		}
	}
	return list
}

// checked notes what makes a question unreadable.
func (q inquiry) checked() inquiry {
	if q.id == "" {
		q.id = strconv.Itoa(q.line)
	}
	if q.broken == "" && !utf8.ValidString(q.text) {
		q.broken = "the text has bytes that are not UTF-8: save the file as UTF-8"
	}
	if q.broken == "" && strings.TrimSpace(q.text) == "" {
		q.broken = "there is no text"
	}
	return q
}

// mostRecordLines is how many lines one record of a CSV may span before its
// quote is taken for one that was never closed (our own choice).
const mostRecordLines = 50

func fromTable(text string) []inquiry {
	lines := strings.SplitAfter(text, "\n")
	var list []inquiry
	columns := []string{"id", "who", "text"}
	for at := 0; at < len(lines); {
		fields, took, broken := csvRecord(lines[at:])
		line := at + 1
		at += took
		switch {
		case broken != "":
			list = append(list, inquiry{line: line, text: strings.TrimSpace(lines[line-1]), broken: broken}.checked())
		case len(fields) == 0:
		case line == 1 && slices.Contains(header(fields), "text"):
			columns = header(fields)
		default:
			list = append(list, row(fields, columns, line))
		}
	}
	return list
}

// csvRecord reads one record and gives how many lines it took. A quote that is
// never closed breaks its own line only.
func csvRecord(lines []string) (fields []string, took int, broken string) {
	quotes := 0
	for took < min(len(lines), mostRecordLines) {
		quotes += strings.Count(lines[took], `"`)
		if took++; quotes%2 == 0 {
			break
		}
	}
	if quotes%2 != 0 {
		return nil, 1, `a quote (") is opened and never closed: close it, or write "" for a quote inside`
	}
	r := csv.NewReader(strings.NewReader(strings.Join(lines[:took], "")))
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	fields, err := r.Read()
	if err != nil {
		return nil, took, "" // an empty line
	}
	return fields, took, ""
}

// header gives the names of columns in the words used here.
func header(fields []string) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		switch name := strings.ToLower(strings.TrimSpace(f)); name {
		case "question", "comment":
			names[i] = "text"
		case "name", "author":
			names[i] = "who"
		default:
			names[i] = name
		}
	}
	return names
}

func row(fields, columns []string, line int) inquiry {
	q := inquiry{line: line}
	for i, f := range fields {
		if i >= len(columns) {
			break
		}
		switch columns[i] {
		case "id":
			q.id = strings.TrimSpace(f)
		case "who":
			q.who = strings.TrimSpace(f)
		case "text":
			q.text = strings.TrimSpace(f)
		}
	}
	if len(fields) < len(columns) && q.text == "" {
		q.broken = "the row has " + count(len(fields), "field") + " where " + strconv.Itoa(len(columns)) + " are needed: id, who and text"
	}
	return q.checked()
}
