package logfile

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// Bounds on a workbook, so that a small file cannot unfold into a large one.
const (
	mostZipped   = 128 << 20 // bytes of the file
	mostUnzipped = 2 << 30   // bytes of one sheet, which is read as a stream
	mostStrings  = 64 << 20  // bytes of the parts that are kept
	mostColumns  = 256
)

// workbook is the first sheet of an Office Open XML workbook (ISO/IEC 29500),
// row by row.
type workbook struct {
	sheet   *xml.Decoder
	strings []string
	styles  []dateStyle
	from    float64 // serial number of 1970-01-01

	line   int
	width  int
	fields [][]byte
}

// openWorkbook finds the first sheet and what its cells refer to. The file is
// held in memory, since a zip archive is read from its end.
func openWorkbook(r io.Reader) (source, error) {
	content, err := io.ReadAll(io.LimitReader(r, mostZipped+1))
	if err != nil {
		return nil, err
	}
	if len(content) > mostZipped {
		return nil, fmt.Errorf("the workbook is larger than %d MiB: save the sheet as CSV", mostZipped>>20)
	}
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return nil, fmt.Errorf("the workbook is damaged (%w): save it again, or as CSV", err)
	}
	w := &workbook{}
	name, err := w.firstSheet(archive)
	if err != nil {
		return nil, err
	}
	if err := w.readShared(archive); err != nil {
		return nil, err
	}
	if err := w.readStyles(archive); err != nil {
		return nil, err
	}
	f, err := archive.Open(name)
	if err != nil {
		return nil, errors.New("the workbook's first sheet cannot be found: save the sheet as CSV")
	}
	w.sheet = xml.NewDecoder(io.LimitReader(f, mostUnzipped))
	return w, nil
}

// part reads a small part of the archive; nil where there is none.
func part(archive *zip.Reader, name string) ([]byte, error) {
	f, err := archive.Open(name)
	if err != nil {
		return nil, nil //nolint:nilerr // the part is optional
	}
	defer f.Close()
	content, err := io.ReadAll(io.LimitReader(f, mostStrings+1))
	if err != nil {
		return nil, fmt.Errorf("the workbook's %s is damaged (%w): save it again, or as CSV", path.Base(name), err)
	}
	if len(content) > mostStrings {
		return nil, fmt.Errorf("the workbook's %s is larger than %d MiB: save the sheet as CSV", path.Base(name), mostStrings>>20)
	}
	return content, nil
}

// decode reads a part into a struct.
func decode(archive *zip.Reader, name string, into any) error {
	content, err := part(archive, name)
	if err != nil || content == nil {
		return err
	}
	if err := xml.Unmarshal(content, into); err != nil {
		return fmt.Errorf("the workbook's %s is damaged (%w): save it again, or as CSV", path.Base(name), err)
	}
	return nil
}

// firstSheet gives the name of the first visible sheet's part.
func (w *workbook) firstSheet(archive *zip.Reader) (string, error) {
	var book struct {
		Properties struct {
			Date1904 string `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []struct {
			State string `xml:"state,attr"`
			ID    string `xml:"http://schemas.openxmlformats.org/officeDocument/2006/relationships id,attr"`
		} `xml:"sheets>sheet"`
	}
	var relations struct {
		List []struct {
			ID     string `xml:"Id,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
	if err := errors.Join(decode(archive, "xl/workbook.xml", &book), decode(archive, "xl/_rels/workbook.xml.rels", &relations)); err != nil {
		return "", err
	}
	w.from = serialOf1970
	if p := book.Properties.Date1904; p == "1" || p == "true" {
		w.from -= days1904
	}
	for _, s := range book.Sheets {
		for _, r := range relations.List {
			if s.State == "" && r.ID == s.ID {
				return sheetPath(r.Target), nil
			}
		}
	}
	return "", errors.New("the file is a zip archive without a sheet: give a CSV or a workbook (.xlsx)")
}

func sheetPath(target string) string {
	if strings.HasPrefix(target, "/") {
		return target[1:]
	}
	return path.Join("xl", target)
}

// readShared reads the texts that cells refer to by number.
func (w *workbook) readShared(archive *zip.Reader) error {
	var shared struct {
		Items []struct {
			Text string   `xml:"t"`
			Runs []string `xml:"r>t"`
		} `xml:"si"`
	}
	if err := decode(archive, "xl/sharedStrings.xml", &shared); err != nil {
		return err
	}
	for _, item := range shared.Items {
		w.strings = append(w.strings, item.Text+strings.Join(item.Runs, ""))
	}
	return nil
}

// next reads one row element.
func (w *workbook) next() ([][]byte, int, error) {
	for {
		token, err := w.sheet.RawToken()
		if err != nil {
			return nil, w.line + 1, damaged(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "row" {
			continue
		}
		w.line++
		if n, err := strconv.Atoi(attribute(start, "r")); err == nil && n >= w.line {
			w.line = n
		}
		return w.row()
	}
}

func damaged(err error) error {
	if errors.Is(err, io.EOF) {
		return io.EOF
	}
	return fmt.Errorf("the sheet is damaged (%w): save it again, or as CSV", err)
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// row reads the cells of a row up to its end.
func (w *workbook) row() ([][]byte, int, error) {
	w.fields = w.fields[:0]
	for {
		token, err := w.sheet.RawToken()
		if err != nil {
			return nil, w.line, damaged(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			if e.Name.Local == "c" {
				if err := w.cell(e); err != nil {
					return nil, w.line, damaged(err)
				}
			}
		case xml.EndElement:
			if e.Name.Local == "row" {
				w.pad()
				return w.fields, w.line, nil
			}
		}
	}
}

// pad gives a row the empty cells that a workbook leaves off at its end.
func (w *workbook) pad() {
	w.width = max(w.width, len(w.fields))
	for len(w.fields) < w.width {
		w.fields = append(w.fields, nil)
	}
}

// cell reads a cell to its place.
func (w *workbook) cell(start xml.StartElement) error {
	at := columnNumber(attribute(start, "r"), len(w.fields))
	for len(w.fields) <= at && at < mostColumns {
		w.fields = append(w.fields, nil)
	}
	var value []byte
	inside := false
	for {
		token, err := w.sheet.RawToken()
		if err != nil {
			return err
		}
		switch e := token.(type) {
		case xml.StartElement:
			inside = e.Name.Local == "v" || e.Name.Local == "t"
		case xml.CharData:
			if inside {
				value = append(value, e...)
			}
		case xml.EndElement:
			inside = false
			if e.Name.Local == "c" {
				if at < mostColumns {
					w.fields[at] = trim(w.shown(value, attribute(start, "t"), attribute(start, "s")))
				}
				return nil
			}
		}
	}
}

// columnNumber reads the letters of a cell's reference, from 0; without any the
// cell stands behind the one before.
func columnNumber(reference string, after int) int {
	n := 0
	for _, c := range reference {
		if c < 'A' || c > 'Z' || n > mostColumns {
			break
		}
		n = n*26 + int(c-'A') + 1
	}
	if n == 0 {
		return after
	}
	return n - 1
}

// shown gives a cell's text as a CSV would hold it.
func (w *workbook) shown(value []byte, kind, style string) []byte {
	switch kind {
	case "s":
		i, err := strconv.Atoi(string(value))
		if err != nil || i < 0 || i >= len(w.strings) {
			return nil
		}
		return []byte(w.strings[i])
	case "", "n":
		i, err := strconv.Atoi(style)
		if err != nil || i < 0 || i >= len(w.styles) || w.styles[i] == noDate || len(value) == 0 {
			return value
		}
		return w.date(value, w.styles[i])
	}
	return value
}
