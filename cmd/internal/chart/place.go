package chart

import "slices"

// placer puts small labels beside points where they touch nothing that was
// placed before.
type placer struct {
	frame box
	taken []box
}

// take keeps labels away from a point of radius r.
func (p *placer) take(at point, r float64) {
	p.taken = append(p.taken, box{at.x - r, at.y - r, at.x + r, at.y + r})
}

// beside takes the first free place round a point, near before far. Where none
// is free there is no label: a number that cannot be read tells less than none.
func (p *placer) beside(at point, text string, r float64) (label, bool) {
	for _, far := range []float64{1, 1.8, 2.6} {
		for _, l := range round8(at, text, r*far) {
			if p.free(l.bounds()) {
				p.taken = append(p.taken, l.bounds())
				return l, true
			}
		}
	}
	return label{}, false
}

func (p *placer) free(b box) bool {
	return b.within(p.frame) && !slices.ContainsFunc(p.taken, b.touches)
}

// round8 gives the places round a point, the preferred ones first.
func round8(at point, words string, r float64) []label {
	near, low := r*0.75, smallPx*0.38
	l := func(dx, dy float64, a anchor) label {
		return label{at: point{at.x + dx, at.y + dy}, text: words, px: smallPx, ink: text, anchor: a}
	}
	return []label{
		l(r+2, low, start), l(-r-2, low, end),
		l(0, -r-3, middle), l(0, r+smallPx*0.9, middle),
		l(near+1, -near-1, start), l(-near-1, -near-1, end),
		l(near+1, near+smallPx*0.75, start), l(-near-1, near+smallPx*0.75, end),
	}
}
