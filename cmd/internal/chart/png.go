package chart

import (
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// zoom is the number of dots to a px of the picture.
const zoom = 2

// painter draws marks on dots, in the light colours.
type painter struct {
	ground *image.RGBA
	fonts  [2]*opentype.Font // regular, bold
	faces  map[face]font.Face
	err    error
}

type face struct {
	px   float64
	bold bool
}

// writePNG paints the picture at two dots a px. Letters come from the Go
// fonts, which hold Latin, Greek and Cyrillic; others show as empty boxes.
func (s *sketch) writePNG(w io.Writer) error {
	p, err := newPainter(s.width, s.height)
	if err != nil {
		return err
	}
	for _, m := range s.marks {
		m.paint(p)
	}
	if p.err != nil {
		return p.err
	}
	return png.Encode(w, p.ground)
}

func newPainter(width, height float64) (*painter, error) {
	regular, err := opentype.Parse(goregular.TTF)
	if err != nil {
		return nil, fmt.Errorf("the regular font cannot be read: %w", err)
	}
	bold, err := opentype.Parse(gobold.TTF)
	if err != nil {
		return nil, fmt.Errorf("the bold font cannot be read: %w", err)
	}
	size := image.Rect(0, 0, int(math.Ceil(width*zoom)), int(math.Ceil(height)*zoom))
	p := &painter{ground: image.NewRGBA(size), fonts: [2]*opentype.Font{regular, bold}, faces: map[face]font.Face{}}
	draw.Draw(p.ground, size, image.NewUniform(paper.shade().light), image.Point{}, draw.Src)
	return p, nil
}

// face opens a font at a size, once.
func (p *painter) face(f face) font.Face {
	if open := p.faces[f]; open != nil {
		return open
	}
	chosen := p.fonts[0]
	if f.bold {
		chosen = p.fonts[1]
	}
	open, err := opentype.NewFace(chosen, &opentype.FaceOptions{Size: f.px * zoom, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		p.err = fmt.Errorf("a font cannot be opened at %g px: %w", f.px, err)
		return nil
	}
	p.faces[f] = open
	return open
}

// fill paints polygons that all turn the same way, as one shape.
func (p *painter) fill(i ink, polygons ...[]point) {
	frame, ok := p.frame(polygons)
	if !ok {
		return
	}
	r := vector.NewRasterizer(frame.Dx(), frame.Dy())
	for _, polygon := range polygons {
		for n, q := range polygon {
			x, y := float32(q.x*zoom-float64(frame.Min.X)), float32(q.y*zoom-float64(frame.Min.Y))
			if n == 0 {
				r.MoveTo(x, y)
			} else {
				r.LineTo(x, y)
			}
		}
		r.ClosePath()
	}
	r.Draw(p.ground, frame, image.NewUniform(i.shade().light), image.Point{})
}

// frame is the part of the picture that polygons cover, in dots.
func (p *painter) frame(polygons [][]point) (image.Rectangle, bool) {
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, polygon := range polygons {
		for _, q := range polygon {
			low = point{min(low.x, q.x), min(low.y, q.y)}
			high = point{max(high.x, q.x), max(high.y, q.y)}
		}
	}
	if !(low.x <= high.x) {
		return image.Rectangle{}, false
	}
	covered := image.Rect(int(low.x*zoom)-1, int(low.y*zoom)-1, int(high.x*zoom)+2, int(high.y*zoom)+2)
	covered = covered.Intersect(p.ground.Bounds())
	return covered, !covered.Empty()
}

func (m area) paint(p *painter) { p.fill(m.ink, m.points) }

func (m disc) paint(p *painter) { p.fill(m.ink, circle(m.centre, m.radius)) }

func (m stroke) paint(p *painter) { p.fill(m.ink, outline(m)...) }

func (m label) paint(p *painter) {
	open := p.face(face{m.px, m.bold})
	if open == nil {
		return
	}
	d := font.Drawer{Dst: p.ground, Src: image.NewUniform(m.ink.shade().light), Face: open}
	width := float64(d.MeasureString(m.text)) / 64
	d.Dot = fixed.Point26_6{
		X: fixed.Int26_6((m.at.x*zoom - width*float64(m.anchor)/2) * 64),
		Y: fixed.Int26_6(m.at.y * zoom * 64),
	}
	d.DrawString(m.text)
}
