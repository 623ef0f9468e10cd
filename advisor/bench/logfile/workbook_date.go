package logfile

import (
	"archive/zip"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// Serial numbers of days in workbooks, counted from 1899-12-30, or from
// 1904-01-01 where the workbook says so.
const (
	serialOf1970 = 25569.0
	days1904     = 1462.0
)

// dateStyle says how a number in a cell is shown.
type dateStyle int

const (
	noDate dateStyle = iota
	dateAndTime
	elapsed // hours count on beyond 24
)

// readStyles finds the styles that show a number as a date or a time.
func (w *workbook) readStyles(archive *zip.Reader) error {
	var sheet struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			Format int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := decode(archive, "xl/styles.xml", &sheet); err != nil {
		return err
	}
	own := make(map[int]dateStyle)
	for _, f := range sheet.Formats {
		own[f.ID] = styleOf(f.Code)
	}
	for _, c := range sheet.Cells {
		style, ok := own[c.Format]
		if !ok {
			style = builtIn(c.Format)
		}
		w.styles = append(w.styles, style)
	}
	return nil
}

// builtIn knows the formats with fixed numbers (ISO/IEC 29500-1, 18.8.30).
func builtIn(format int) dateStyle {
	switch {
	case format == 46:
		return elapsed
	case format >= 14 && format <= 22, format == 45, format == 47:
		return dateAndTime
	}
	return noDate
}

// styleOf reads a format's own code, past quoted text and conditions.
func styleOf(code string) dateStyle {
	lower := strings.ToLower(code)
	if strings.Contains(lower, "[h") || strings.Contains(lower, "[m") || strings.Contains(lower, "[s") {
		return elapsed
	}
	quoted, bracketed := false, false
	for i, c := range lower {
		switch {
		case c == '"':
			quoted = !quoted
		case c == '[' || c == ']':
			bracketed = c == '['
		case quoted || bracketed || i > 0 && lower[i-1] == '\\':
		case strings.ContainsRune("dhsy", c):
			return dateAndTime
		}
	}
	return noDate
}

// date writes a serial number as a time of the day or as a date, to the
// millisecond: a serial number holds no more.
func (w *workbook) date(value []byte, style dateStyle) []byte {
	days, err := strconv.ParseFloat(string(value), 64)
	if err != nil || math.Abs(days) > 1e7 {
		return value
	}
	ms := int64(math.Round(days * day * 1000))
	if days < 1 || style == elapsed {
		return fmt.Appendf(nil, "%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
	}
	ms -= int64(w.from * day * 1000)
	return []byte(time.UnixMilli(ms).UTC().Format(time.RFC3339Nano))
}
