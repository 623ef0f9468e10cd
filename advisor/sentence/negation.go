package sentence

// negators are the ways to say that something is not so.
var negators = []pattern{
	"instead|apart|aside|other|rather|except|besides of|than|from|for ?having|using",
	"anything|everything|all|any|everyone but",
	"except|besides|unlike|excluding|minus|lacking|nor|neither",
	"not|no|never|without|non",
	"isnt|arent|aint|wasnt|werent|dont|doesnt|didnt|wont|wouldnt|cant|cannot|couldnt|shouldnt|havent|hasnt",
}

// The words that end the reach of a negator, those before which it has denied
// nothing, and those after which it denies nothing that a question holds: "will
// it not throttle", "it isn't enough".
const (
	reachEnds = " but and with for so then or at on if when because just only though although will would can while rather instead "
	deniesNot = " but and so then or if when because though although would will can while rather "
	harmless  = " throttle throttling overheat overheating handle carry hold cope survive fit work melt burn die cook fail " +
		" crash struggle too enough sure good bad ok okay fine safe much really mind know understand be get go keep " +
		" think believe run start become worry able care matter "
)

// mostNegated is how many words a negator reaches at most (our own choice).
const mostNegated = 4

// negations marks what is denied, so that it is reported and never taken as if
// it had been affirmed: "not in a small case".
func (r *reader) negations() {
	for i := 0; i < len(r.tokens); i++ {
		for _, p := range negators {
			if end, ok := p.match(r.tokens, i); ok {
				r.negate(i, end)
				i = end - 1
				break
			}
		}
	}
}

// negate marks the negator and the first thing that it reaches, or takes the
// negator for harmless.
func (r *reader) negate(from, to int) {
	head := r.denied(from, to)
	if head < 0 {
		r.use(from, to)
		return
	}
	end := head + 1
	for end < len(r.tokens) && end < head+mostNegated && !r.tokens[end-1].stop && !oneOf(r.tokens[end].fold, reachEnds) {
		end++
	}
	for i := from; i < end; i++ {
		r.tokens[i].negated = true
	}
}

// denied finds the first word after a negator that says something, or -1 where
// the negator denies nothing that a question holds.
func (r *reader) denied(from, to int) int {
	if r.opens(from) || r.tokens[to-1].stop {
		return -1
	}
	for i := to; i < min(len(r.tokens), to+2*mostNegated); i++ {
		t := r.tokens[i]
		switch {
		case oneOf(t.fold, deniesNot) || oneOf(t.fold, harmless) || t.used:
			return -1
		case r.names.means(t.fold) || t.number != "" || !ordinary(t.fold) && !filler(t.fold):
			return i
		case t.stop:
			return -1
		}
	}
	return -1
}

// opens: "won't the Slate …?" asks and denies nothing.
func (r *reader) opens(i int) bool {
	t := r.tokens[i]
	return oneOf(t.fold, "isnt arent wont wouldnt doesnt cant couldnt shouldnt") &&
		(i == 0 || r.tokens[i-1].stop || oneOf(r.tokens[i-1].fold, "why so and but or"))
}

// means reports whether a word is a name or a part of one.
func (n *Names) means(fold string) bool {
	return len(n.exact[fold]) > 0 || n.parts[fold]
}
