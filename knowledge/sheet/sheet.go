// Package sheet reads a CSV file with a header (RFC 4180) into rows whose
// fields know where they stand.
package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"go/token"
	"io"
	"slices"
	"strings"

	"hotroom/knowledge/document"
	"hotroom/knowledge/nearest"
)

// Sheet is a header and the rows below it.
type Sheet struct {
	Rows []Row

	src     *document.Source
	columns map[string]int
}

// Row is one line of a sheet, its fields without the blanks around them.
type Row struct {
	At token.Position // of the first field

	sheet  *Sheet
	fields []string
	places []token.Position
}

// Field gives a field's text, "" where there is no such column.
func (r *Row) Field(column string) string {
	if i, ok := r.sheet.columns[column]; ok {
		return r.fields[i]
	}
	return ""
}

// Has reports whether there is such a column.
func (r *Row) Has(column string) bool {
	_, ok := r.sheet.columns[column]
	return ok
}

// Place gives the place of a field, or of the row where there is no such
// column.
func (r *Row) Place(column string) token.Position {
	if i, ok := r.sheet.columns[column]; ok {
		return r.places[i]
	}
	return r.At
}

// Problem makes a problem at a field that shows the file's line.
func (r *Row) Problem(column, what, mend string) document.Problem {
	return r.sheet.src.Problem(r.Place(column), what, mend)
}

// Read reads a sheet whose columns, in any order, are among the known ones and
// include the needed ones. Lines with the wrong number of fields are reported
// and left out, rows with nothing in them passed over. The sheet is nil when
// there is no header to go by.
func Read(file string, src []byte, known, needed []string) (*Sheet, document.Problems) {
	source, problems := document.Open(file, src)
	if source == nil {
		return nil, problems
	}
	r := &reader{sheet: &Sheet{src: source}, problems: problems, csv: csv.NewReader(bytes.NewReader(source.Text()))}
	r.csv.FieldsPerRecord = -1
	if !r.header(known, needed) {
		return nil, r.problems
	}
	for !r.problems.Full() && r.row() {
	}
	return r.sheet, r.problems
}

type reader struct {
	sheet    *Sheet
	csv      *csv.Reader
	columns  int
	problems document.Problems
}

func (r *reader) report(at token.Position, what, mend string) {
	r.problems = r.problems.With(r.sheet.src.Problem(at, what, mend))
}

// next gives the next line's fields and places; false at the end.
func (r *reader) next() (fields []string, places []token.Position, more bool) {
	fields, err := r.csv.Read()
	if errors.Is(err, io.EOF) {
		return nil, nil, false
	}
	var perr *csv.ParseError
	if errors.As(err, &perr) {
		r.report(r.misquoted(perr), "the quotes do not match", `put a field with quotes in it between quotes and double each inner one, "so ""that"" it reads"`)
		return nil, nil, true
	}
	if err != nil {
		return nil, nil, false
	}
	places = make([]token.Position, len(fields))
	for i := range fields {
		fields[i] = strings.TrimSpace(fields[i])
		places[i] = r.sheet.src.PlaceIn(r.csv.FieldPos(i))
	}
	return fields, places, true
}

// misquoted gives the place of a quoting error: where a field that is never
// closed makes the reader run to another line, the start of its record.
func (r *reader) misquoted(err *csv.ParseError) token.Position {
	if err.Line != err.StartLine {
		return r.sheet.src.PlaceIn(err.StartLine, 1)
	}
	return r.sheet.src.PlaceIn(err.Line, err.Column)
}

func (r *reader) header(known, needed []string) bool {
	names, places, more := r.next()
	if !more {
		r.report(r.sheet.src.Place(0), "the file is empty", "start it with a header: "+strings.Join(needed, ","))
	}
	if len(names) == 0 {
		return false
	}
	if len(names) == 1 && strings.ContainsAny(names[0], ";\t") {
		r.report(places[0], "the columns are not separated by commas", "save it as a comma-separated file")
		return false
	}
	r.columns = len(names)
	r.sheet.columns = make(map[string]int, len(names))
	for i, name := range names {
		r.column(i, name, places, known)
	}
	whole := true
	for _, name := range needed {
		if _, ok := r.sheet.columns[name]; !ok {
			r.report(places[0], "there is no column "+document.Quote(name), "add it to the header")
			whole = false
		}
	}
	return whole
}

// column takes one name of the header.
func (r *reader) column(i int, name string, places []token.Position, known []string) {
	if !slices.Contains(known, name) {
		mend := "the columns are " + strings.Join(known, ", ")
		if best, ok := nearest.Word(name, known); ok {
			mend = "did you mean " + document.Quote(best) + "?"
		}
		r.report(places[i], "unknown column "+document.Quote(name), mend)
		return
	}
	if first, ok := r.sheet.columns[name]; ok {
		r.report(places[i], "the column "+document.Quote(name)+" is given twice",
			fmt.Sprintf("it already stands in column %d of the table: keep one", first+1))
		return
	}
	r.sheet.columns[name] = i
}

// row takes one line below the header; false at the end.
func (r *reader) row() bool {
	fields, places, more := r.next()
	switch {
	case !more:
		return false
	case !slices.ContainsFunc(fields, func(f string) bool { return f != "" }):
		return true
	case len(fields) != r.columns:
		r.report(places[0], fmt.Sprintf("the line has %d fields and the header %d", len(fields), r.columns),
			"give every column its field, empty where there is nothing, and put a text with a comma between quotes")
		return true
	}
	r.sheet.Rows = append(r.sheet.Rows, Row{At: places[0], sheet: r.sheet, fields: fields, places: places})
	return true
}
