package chart

import "math"

// circle gives a circle as a polygon fine enough for a picture of this size.
func circle(centre point, radius float64) []point {
	const sides = 40
	list := make([]point, sides)
	for i := range list {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
		list[i] = point{centre.x + radius*cos, centre.y + radius*sin}
	}
	return list
}

// outline gives the polygons that a stroke covers: a bar for each straight
// piece and a circle where two meet. All turn the same way.
func outline(m stroke) [][]point {
	var polygons [][]point
	for _, piece := range broken(m.points, m.dash.lengths()) {
		for i := 1; i < len(piece); i++ {
			polygons = append(polygons, bar(piece[i-1], piece[i], m.width))
			if i > 1 && m.width > 1 {
				polygons = append(polygons, circle(piece[i-1], m.width/2))
			}
		}
	}
	return polygons
}

// bar is a straight line with a width, turning as circle does.
func bar(a, b point, width float64) []point {
	length := math.Hypot(b.x-a.x, b.y-a.y)
	if length == 0 {
		return nil
	}
	dx, dy := (b.x-a.x)/length*width/2, (b.y-a.y)/length*width/2
	return []point{{a.x + dy, a.y - dx}, {b.x + dy, b.y - dx}, {b.x - dy, b.y + dx}, {a.x - dy, a.y + dx}}
}

// broken cuts a line into its drawn pieces: lengths are drawn and left out in
// turn; without any the line is whole.
func broken(points []point, lengths []float64) [][]point {
	if len(lengths) == 0 || len(points) == 0 {
		return [][]point{points}
	}
	var pieces [][]point
	piece := []point{points[0]}
	turn, left := 0, lengths[0]
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		for whole := math.Hypot(b.x-a.x, b.y-a.y); whole > left; whole = math.Hypot(b.x-a.x, b.y-a.y) {
			a = point{a.x + (b.x-a.x)*left/whole, a.y + (b.y-a.y)*left/whole}
			if turn%2 == 0 {
				pieces = append(pieces, append(piece, a))
			}
			piece = []point{a}
			turn++
			left = lengths[turn%len(lengths)]
		}
		left -= math.Hypot(b.x-a.x, b.y-a.y)
		piece = append(piece, b)
	}
	if turn%2 == 0 {
		pieces = append(pieces, piece)
	}
	return pieces
}
