package chart

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// drawing is what every chart can do.
type drawing interface {
	SVG(io.Writer) error
	PNG(io.Writer) error
	Text(width int, plain bool) string
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, got) {
		t.Errorf("%s has changed; look at it and run the test with -update\n%s", path, got[:min(len(got), 2000)])
	}
}

func TestGolden(t *testing.T) {
	for name, d := range map[string]drawing{
		"sweep": risingSweep(), "sweep-empty": emptySweep(), "round": testRound(), "scatter": testScatter(),
	} {
		t.Run(name, func(t *testing.T) {
			golden(t, name+".svg", svgOf(t, d))
			golden(t, name+"-40.txt", []byte(d.Text(40, false)))
			golden(t, name+"-60.txt", []byte(d.Text(60, false)))
			golden(t, name+"-100.txt", []byte(d.Text(100, false)))
			golden(t, name+"-plain.txt", []byte(d.Text(80, true)))
		})
	}
}

func svgOf(t interface{ Fatal(...any) }, d interface{ SVG(io.Writer) error }) []byte {
	var b bytes.Buffer
	if err := d.SVG(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The PNG has the size of the SVG, twice over, holds more than its ground, and
// is the same each time. Its dots are not held in a file: they may change with
// the font module.
func TestPNG(t *testing.T) {
	for name, d := range map[string]drawing{"sweep": risingSweep(), "round": testRound(), "scatter": testScatter()} {
		var first, second bytes.Buffer
		if err := errors.Join(d.PNG(&first), d.PNG(&second)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Errorf("%s: two pictures of the same data differ", name)
		}
		picture, err := png.Decode(&first)
		if err != nil {
			t.Fatal(err)
		}
		if want := map[string]int{"sweep": 1520, "round": 1800, "scatter": 1240}[name]; picture.Bounds().Dx() != want {
			t.Errorf("%s is %d dots wide, want %d", name, picture.Bounds().Dx(), want)
		}
		seen := map[[4]uint32]bool{}
		for y := range picture.Bounds().Dy() {
			for x := range picture.Bounds().Dx() {
				r, g, b, a := picture.At(x, y).RGBA()
				seen[[4]uint32{r, g, b, a}] = true
			}
		}
		for _, i := range []ink{paper, text, course, wall} {
			r, g, b, a := i.shade().light.RGBA()
			if i == wall && name == "scatter" {
				continue // it has no limit
			}
			if !seen[[4]uint32{r, g, b, a}] {
				t.Errorf("%s: nothing is drawn in the ink %q", name, i.shade().name)
			}
		}
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }

func TestWriteErrors(t *testing.T) {
	for _, d := range []drawing{risingSweep(), testRound(), testScatter()} {
		for form, err := range map[string]error{"SVG": d.SVG(fullDisk{}), "PNG": d.PNG(fullDisk{})} {
			if err == nil || err.Error() != "the disk is full" {
				t.Errorf("%T.%s: got %v", d, form, err)
			}
		}
	}
}

// wellFormed reads the whole document and gives its words.
func wellFormed(document []byte) (words string, err error) {
	d := xml.NewDecoder(bytes.NewReader(document))
	d.Strict = true
	var b strings.Builder
	for {
		token, err := d.Token()
		if err == io.EOF {
			return b.String(), nil
		}
		if err != nil {
			return "", err
		}
		if c, ok := token.(xml.CharData); ok {
			b.Write(c)
		}
	}
}

func TestEscaping(t *testing.T) {
	const hostile = "<b>&\"'\x1b[31m\x00\u202e\ufffe]]>\xff"
	const shown = `<b>&"'\x1b[31m\x00\u202e\ufffe]]>\xff`
	s, r, c := risingSweep(), testRound(), testScatter()
	s.Title, s.Subtitle, s.X.Unit, s.Runs[0].Label, s.Notes = hostile, hostile, hostile, hostile, []string{hostile}
	r.Title, r.Rows[0].Name, r.Rows[0].Outcome, r.Rows[0].Unlike, r.Clock = hostile, hostile, hostile, hostile, Axis{hostile, hostile}
	c.Title, c.Points[0].Label, c.Points[0].Evidence, c.Value = hostile, hostile, hostile, Axis{hostile, hostile}
	for _, d := range []drawing{s, r, c} {
		document := svgOf(t, d)
		words, err := wellFormed(document)
		if err != nil {
			t.Errorf("%T: %v", d, err)
		}
		if !strings.Contains(words, shown) {
			t.Errorf("%T does not show %s", d, shown)
		}
		for _, text := range []string{string(document), d.Text(80, false), d.Text(80, true)} {
			if strings.ContainsAny(text, "\x1b\x00\u202e\ufffe") || strings.Contains(text, "\xff") {
				t.Errorf("%T lets control characters through", d)
			}
		}
		if bytes.Contains(document, []byte("<b>")) {
			t.Errorf("%T lets markup through", d)
		}
	}
}

// The colours keep apart from their ground as WCAG 2.2 asks: 4.5 to 1 for text
// (criterion 1.4.3), 3 to 1 for graphics (1.4.11). The formula is the one of
// its glossary, from memory.
func TestContrast(t *testing.T) {
	for i := range inks {
		least := map[ink]float64{text: 4.5, quiet: 4.5, wall: 4.5, alarm: 4.5, course: 3}[i]
		for _, ground := range []ink{paper, blank, spread90} {
			light := contrast(i.shade().light, ground.shade().light)
			dark := contrast(i.shade().dark, ground.shade().dark)
			if light < least || dark < least {
				t.Errorf("%s on %s: %.1f light, %.1f dark, want %.1f", i.shade().name, ground.shade().name, light, dark, least)
			}
		}
	}
}
