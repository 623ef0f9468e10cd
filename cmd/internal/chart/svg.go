package chart

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"hash/fnv"
	"image/color"
	"io"
	"math"
	"strconv"
	"strings"

	"hotroom/cmd/internal/harmless"
)

// svgWriter gathers the text of a picture.
type svgWriter struct {
	bytes.Buffer
	letter float64 // size of letters that need not be said, px
}

// writeSVG writes a picture that needs nothing but itself. Its size on the
// page is its own size in px, and it shrinks with the page.
func (s *sketch) writeSVG(w io.Writer) error {
	b := &svgWriter{}
	id := s.id()
	wide, high := coordinate(s.width), coordinate(math.Ceil(s.height))
	fmt.Fprintf(b, `<svg xmlns="http://www.w3.org/2000/svg" class="hotroom-chart" viewBox="0 0 %s %s" width="%s" height="%s" role="img" aria-labelledby="%s-title %s-desc" font-family="sans-serif">`+"\n",
		wide, high, wide, high, id, id)
	fmt.Fprintf(b, "<title id=\"%s-title\">%s</title>\n", id, escaped(s.title))
	fmt.Fprintf(b, "<desc id=\"%s-desc\">%s</desc>\n", id, escaped(harmless.Text(s.description)))
	b.WriteString("<style>" + StyleSheet() + "</style>\n")
	fmt.Fprintf(b, "<rect width=\"%s\" height=\"%s\"%s/>\n", wide, high, filled(paper))
	for _, m := range s.marks {
		m.svg(b)
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

// writeInset writes a picture for the inside of an HTML page: without a style
// sheet and a ground of its own, and small.
func (s *sketch) writeInset(w io.Writer) error {
	b := &svgWriter{letter: smallPx}
	wide, high := coordinate(s.width), coordinate(math.Ceil(s.height))
	fmt.Fprintf(b, `<svg class="hotroom-chart" viewBox="0 0 %s %s" width="%s" height="%s" role="img" aria-label="%s" font-family="sans-serif" font-size="%s">`+"\n",
		wide, high, wide, high, escaped(harmless.Text(s.description)), coordinate(b.letter))
	for _, m := range s.marks {
		m.svg(b)
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

// id tells charts apart that stand in one page.
func (s *sketch) id() string {
	h := fnv.New32a()
	fmt.Fprintf(h, "%s\n%s\n%g", s.title, s.description, s.width)
	return fmt.Sprintf("chart-%08x", h.Sum32())
}

// StyleSheet is the style sheet that every chart carries. It turns the
// colours round on a dark screen; paper stays light. The light colours stand at
// each mark, for readers that drop style sheets.
func StyleSheet() string {
	var b strings.Builder
	b.WriteString("\n.hotroom-chart{max-width:100%;height:auto}\n@media screen and (prefers-color-scheme:dark){\n")
	for i := range inks {
		s := i.shade()
		fmt.Fprintf(&b, ".hotroom-chart .f-%s{fill:%s}\n.hotroom-chart .s-%s{stroke:%s}\n", s.name, hex(s.dark), s.name, hex(s.dark))
	}
	b.WriteString("}\n")
	return b.String()
}

func filled(i ink) string {
	return fmt.Sprintf(` class="f-%s" fill="%s"`, i.shade().name, hex(i.shade().light))
}

func stroked(i ink) string {
	return fmt.Sprintf(` class="s-%s" fill="none" stroke="%s"`, i.shade().name, hex(i.shade().light))
}

func hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// coordinate writes a length to a tenth of a px, the shortest way.
func coordinate(v float64) string {
	return strconv.FormatFloat(math.Round(v*10)/10+0, 'f', -1, 64)
}

func coordinates(points []point) string {
	list := make([]string, len(points))
	for i, p := range points {
		list[i] = coordinate(p.x) + "," + coordinate(p.y)
	}
	return strings.Join(list, " ")
}

func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a Builder never fails
	return b.String()
}

func (m stroke) svg(b *svgWriter) {
	fmt.Fprintf(b, `<polyline points="%s"%s`, coordinates(m.points), stroked(m.ink))
	if m.width != 1 {
		fmt.Fprintf(b, ` stroke-width="%s"`, coordinate(m.width))
	}
	if m.dash != unbroken {
		var list []string
		for _, v := range m.dash.lengths() {
			list = append(list, coordinate(v))
		}
		fmt.Fprintf(b, ` stroke-dasharray="%s"`, strings.Join(list, " "))
	}
	b.WriteString("/>\n")
}

func (m area) svg(b *svgWriter) {
	fmt.Fprintf(b, "<polygon points=\"%s\"%s/>\n", coordinates(m.points), filled(m.ink))
}

func (m disc) svg(b *svgWriter) {
	fmt.Fprintf(b, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"%s/>\n",
		coordinate(m.centre.x), coordinate(m.centre.y), coordinate(m.radius), filled(m.ink))
}

func (m label) svg(b *svgWriter) {
	fmt.Fprintf(b, `<text x="%s" y="%s"%s`, coordinate(m.at.x), coordinate(m.at.y), filled(m.ink))
	if m.px != b.letter {
		fmt.Fprintf(b, ` font-size="%s"`, coordinate(m.px))
	}
	if m.bold {
		b.WriteString(` font-weight="bold"`)
	}
	if m.anchor != start {
		fmt.Fprintf(b, ` text-anchor="%s"`, [...]string{start: "start", middle: "middle", end: "end"}[m.anchor])
	}
	fmt.Fprintf(b, ">%s</text>\n", escaped(m.text))
}
