package main

import (
	"archive/zip"
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hotroom/cmd/internal/command"
	"hotroom/knowledge"
)

// Every example of the help works when it is pasted, where the files that it
// names are there; a server's would not end.
func TestExamples(t *testing.T) {
	for _, v := range command.Verbs() {
		if v.Name == "serve" {
			continue
		}
		for line := range strings.Lines(v.Example) {
			line = strings.TrimSpace(line)
			t.Run(line, func(t *testing.T) {
				if !strings.Contains(line, "hotroom "+v.Name) {
					t.Errorf("it is no example of %s", v.Name)
				}
				ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
				defer cancel()
				c := exec.CommandContext(ctx, "sh", "-c", "exec "+line)
				c.Dir = bench(t)
				if out, err := c.CombinedOutput(); err != nil || len(out) == 0 {
					t.Errorf("%v\n%s", err, out)
				}
			})
		}
	}
}

// bench is a folder with what the examples name: a knowledge of one's own and
// the log of an evening, as CSV and as a workbook.
func bench(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	log := []byte(heating())
	for _, err := range []error{
		os.CopyFS(filepath.Join(folder, "my-bench"), knowledge.Demo()),
		os.Mkdir(filepath.Join(folder, "logs"), 0o700),
		os.WriteFile(filepath.Join(folder, "evening.csv"), log, 0o600),
		os.WriteFile(filepath.Join(folder, "logs", "evening.csv"), log, 0o600),
		os.WriteFile(filepath.Join(folder, "evening.xlsx"), workbook(t, heating()), 0o600),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// heating is the log of an hour under load after a minute without, a row every
// ten seconds.
func heating() string {
	var b strings.Builder
	b.WriteString("time_s,hot_c,room_c,ghz,volts,package_w\n")
	for s := 0; s <= 3660; s += 10 {
		hot, watts := 30.0, 12.0
		if s > 60 {
			hot, watts = 30+45*(1-math.Exp(-float64(s-60)/500)), 86.0
		}
		fmt.Fprintf(&b, "%d,%.1f,22.1,3.45,0.9,%g\n", s, hot, watts)
	}
	return b.String()
}

// workbook puts a table of numbers under one row of names into as little of a
// workbook (ECMA-376) as can be read.
func workbook(t *testing.T, table string) []byte {
	t.Helper()
	var sheet strings.Builder
	for line := range strings.Lines(table) {
		sheet.WriteString("<row>")
		for cell := range strings.SplitSeq(strings.TrimSpace(line), ",") {
			if strings.ContainsAny(cell[:1], "0123456789") {
				sheet.WriteString("<c><v>" + cell + "</v></c>")
			} else {
				sheet.WriteString(`<c t="inlineStr"><is><t>` + cell + "</t></is></c>")
			}
		}
		sheet.WriteString("</row>")
	}
	const main, office = "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	var file bytes.Buffer
	archive := zip.NewWriter(&file)
	for name, content := range map[string]string{
		"xl/workbook.xml":            `<workbook xmlns="` + main + `" xmlns:r="` + office + `"><sheets><sheet name="log" sheetId="1" r:id="r1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="` + office + `/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":   `<worksheet xmlns="` + main + `"><sheetData>` + sheet.String() + "</sheetData></worksheet>",
	} {
		part, err := archive.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := part.Write([]byte(content)); err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}
