package sentence

import (
	"strconv"
	"strings"

	"hotroom/knowledge/quantity"
)

// Words that say that a length is an altitude: names of it, what may stand before
// it, and what may stand after it.
const (
	heightNames  = "altitude elevation height"
	heightBefore = heightNames + " high up above"
	heightAfter  = heightBefore + " sea asl"
)

// lowestHeightM is the least length without any word about height that is
// taken for an altitude, m: less is a cable or a wall (our own choice).
const lowestHeightM = 100

// height takes a length for the altitude; one that is short, with nothing
// about height beside it, is left alone.
func (r *reader) height(a amount) {
	a = r.grouped(a)
	metres, err := quantity.Length(a.number + a.unit)
	if err == nil && metres < lowestHeightM && r.back(a.from, 3, " of is about around at ", heightBefore) < 0 && !r.after(a.to, heightAfter) {
		return
	}
	r.set(a, &r.out.Question.AltitudeM, altitude, quantity.Length)
	r.useRun(a.to, "of altitude elevation height high up above sea asl level the amsl msl")
	if at := r.back(a.from, 3, " of is about around at ", heightNames); at >= 0 {
		r.use(at, at+1)
	}
}

// grouped reads "1.600 m" as sixteen hundred: no altitude is given to the
// millimetre.
func (r *reader) grouped(a amount) amount {
	whole, part, ok := strings.Cut(a.number, ".")
	if ok && len(part) == 3 && isLength(a.unit) {
		if _, err := strconv.Atoi(whole + part); err == nil {
			a.number = whole + part
		}
	}
	return a
}
