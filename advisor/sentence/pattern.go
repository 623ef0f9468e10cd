package sentence

import (
	"strings"
	"sync"
)

// A pattern is a run of words to look for: alternatives stand with strokes
// between them, a word with a question mark in front may be missing, and
// "..." lets up to five words stand between. PLACE stands for the words of
// places. It is taken apart when it is first looked for: most runs of the
// program read no sentence.
type pattern struct {
	text  string
	once  *sync.Once
	steps *steps
}

type steps []step

type step struct {
	words    []string
	optional bool
	gap      bool
}

// longestGap is how many words "..." lets stand between (our own choice).
const longestGap = 5

func newPattern(text string) pattern {
	return pattern{text: text, once: new(sync.Once), steps: new(steps)}
}

func parseSteps(text string) steps {
	var p steps
	for _, field := range strings.Fields(text) {
		rest, optional := strings.CutPrefix(field, "?")
		rest = strings.ReplaceAll(rest, "PLACE", places)
		p = append(p, step{words: strings.Split(rest, "|"), optional: optional, gap: field == "..."})
	}
	return p
}

// match gives where the pattern ends when it begins at a token.
func (p pattern) match(list []token, at int) (end int, ok bool) {
	p.once.Do(func() { *p.steps = parseSteps(p.text) })
	return p.steps.match(list, at)
}

// match does the same for what is left of a pattern.
func (p steps) match(list []token, at int) (end int, ok bool) {
	if len(p) == 0 {
		return at, true
	}
	s, rest := p[0], p[1:]
	if s.gap {
		for skip := 0; skip <= longestGap && at+skip <= len(list); skip++ {
			if end, ok = rest.match(list, at+skip); ok {
				return end, true
			}
			if at+skip < len(list) && list[at+skip].stop {
				break
			}
		}
		return 0, false
	}
	if at < len(list) && !list[at].used && oneOf(list[at].fold, s.words) {
		if end, ok = rest.match(list, at+1); ok {
			return end, true
		}
	}
	if s.optional {
		return rest.match(list, at)
	}
	return 0, false
}

func oneOf(word string, words []string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

// find looks for the pattern anywhere.
func (p pattern) find(list []token) (from, to int, ok bool) {
	for at := range list {
		if end, ok := p.match(list, at); ok {
			return at, end, true
		}
	}
	return 0, 0, false
}
