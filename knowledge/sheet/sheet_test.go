package sheet

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func read(src string) (*Sheet, string) {
	s, problems := Read("r.csv", []byte(src), []string{"id", "name", "mass_g"}, []string{"id"})
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n" + p.Excerpt())
	}
	return s, b.String()
}

func TestRead(t *testing.T) {
	s, problems := read("\ufeffmass_g,id\r\n 5 ,a\r\n\r\n,\r\n\"6\",\"b\r\nc\"\r\n7,d\r\n")
	if problems != "" || len(s.Rows) != 3 {
		t.Fatalf("%d rows, problems %q", len(s.Rows), problems)
	}
	for i, want := range []struct{ id, mass, at string }{
		{"a", "5", "r.csv:2:5"},
		{"b\nc", "6", "r.csv:5:5"},
		{"d", "7", "r.csv:7:3"},
	} {
		r := &s.Rows[i]
		if r.Field("id") != want.id || r.Field("mass_g") != want.mass || r.Place("id").String() != want.at {
			t.Errorf("row %d: %q, %q at %v; want %v", i, r.Field("id"), r.Field("mass_g"), r.Place("id"), want)
		}
		if r.Field("name") != "" || r.Has("name") || r.Place("name") != r.At {
			t.Errorf("row %d has a column that is not there", i)
		}
	}
}

func TestMessages(t *testing.T) {
	const quotes = `put a field with quotes in it between quotes and double each inner one, "so ""that"" it reads"`
	for _, tt := range []struct{ src, want string }{
		{"", "r.csv:1:1: the file is empty: start it with a header: id\n"},
		{"id;name\n", "r.csv:1:1: the columns are not separated by commas: save it as a comma-separated file\nid;name\n^\n"},
		{"name,mas_g,x\n1,2,3\n", "r.csv:1:6: unknown column \"mas_g\": did you mean \"mass_g\"?\nname,mas_g,x\n     ^\n" +
			"r.csv:1:12: unknown column \"x\": the columns are id, name, mass_g\nname,mas_g,x\n           ^\n" +
			"r.csv:1:1: there is no column \"id\": add it to the header\nname,mas_g,x\n^\n"},
		{"id,name,id\n", "r.csv:1:9: the column \"id\" is given twice: it already stands in column 1 of the table: keep one\nid,name,id\n        ^\n"},
		{"id,name\na\nb,c,d\n", "r.csv:2:1: the line has 1 fields and the header 2: give every column its field, empty where there is nothing, and put a text with a comma between quotes\na\n^\n" +
			"r.csv:3:1: the line has 3 fields and the header 2: give every column its field, empty where there is nothing, and put a text with a comma between quotes\nb,c,d\n^\n"},
		{"id,name\na,b\"c\"\nd,\"e\nf\n", "r.csv:2:4: the quotes do not match: " + quotes + "\na,b\"c\"\n   ^\n" +
			"r.csv:3:1: the quotes do not match: " + quotes + "\nd,\"e\n^\n"},
		{"\xff\xfei\x00", "r.csv:1:1: the file is UTF-16: save it as UTF-8\n"},
	} {
		if _, got := read(tt.src); got != tt.want {
			t.Errorf("%q\ngot\n%s\nwant\n%s", tt.src, got, tt.want)
		}
	}
}

// What a CSV writer writes is read back, and each field's place is where the
// field, or its opening quote, stands.
func TestPlaces(t *testing.T) {
	field := rapid.StringOf(rapid.RuneFrom([]rune("ab1,\"\n é")))
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.SliceOfN(rapid.SliceOfN(field, 3, 3), 1, 6).Draw(t, "rows")
		var out bytes.Buffer
		w := csv.NewWriter(&out)
		if err := w.WriteAll(append([][]string{{"name", "mass_g", "id"}}, rows...)); err != nil {
			t.Fatal(err)
		}
		s, problems := read(out.String())
		if problems != "" {
			t.Fatal(problems)
		}
		i := 0
		for _, row := range rows {
			if strings.TrimSpace(strings.Join(row, "")) == "" {
				continue
			}
			checkRow(t, out.Bytes(), &s.Rows[i], row)
			i++
		}
		if i != len(s.Rows) {
			t.Fatalf("%d rows read, %d written", len(s.Rows), i)
		}
	})
}

func checkRow(t *rapid.T, src []byte, r *Row, written []string) {
	for i, column := range []string{"name", "mass_g", "id"} {
		if got, want := r.Field(column), strings.TrimSpace(written[i]); got != want {
			t.Fatalf("%s is %q, want %q", column, got, want)
		}
		rest := src[r.Place(column).Offset:]
		if !bytes.HasPrefix(rest, []byte(written[i])) && rest[0] != '"' {
			t.Fatalf("%s is %q, its place shows %q", column, written[i], rest)
		}
	}
}
