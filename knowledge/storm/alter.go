package storm

import (
	"math/rand/v2"
	"strings"
)

// most is the longest input, bytes.
const most = 4 << 10

// alter takes one of the seeds, or of the first of them, and changes it in a
// place or a few.
func alter(r *rand.Rand, seeds []string, first int) string {
	text := pick(r, seeds)
	if r.IntN(2) == 0 {
		text = pick(r, seeds[:first])
	}
	for range 1 + r.IntN(1+r.IntN(4)) {
		text = once(r, text, seeds)
	}
	return text[:min(len(text), most)]
}

func pick[T any](r *rand.Rand, list []T) T { return list[r.IntN(len(list))] }

// once makes one change: a part is dropped, doubled, moved, taken from another
// seed, or replaced by something that readers find hard.
func once(r *rand.Rand, text string, seeds []string) string {
	from, to := part(r, text)
	before, middle, after := text[:from], text[from:to], text[to:]
	switch r.IntN(8) {
	case 0:
		return before + after
	case 1:
		return before + middle + middle + after
	case 2:
		return after + middle + before
	case 3:
		other := pick(r, seeds)
		a, b := part(r, other)
		return before + other[a:b] + after
	case 4:
		return before + pick(r, hard) + after
	case 5:
		return before + pick(r, hard) + middle + after
	case 6:
		return before + line(r, pick(r, seeds)) + after
	default:
		return before + bytesOf(r, middle) + after
	}
}

// part chooses a stretch of text, short ones mostly, often a whole word.
func part(r *rand.Rand, text string) (from, to int) {
	if text == "" {
		return 0, 0
	}
	from = r.IntN(len(text))
	to = min(len(text), from+r.IntN(1<<r.IntN(7)))
	if r.IntN(2) == 0 {
		from = strings.LastIndexAny(text[:from], " \n,;=&\"'.[]()") + 1
		if i := strings.IndexAny(text[from:], " \n,;=&\"'.[]()"); i >= 0 {
			to = from + i
		}
	}
	return from, max(from, to)
}

// line gives a whole line of a text.
func line(r *rand.Rand, text string) string {
	lines := strings.SplitAfter(text, "\n")
	return pick(r, lines)
}

// bytesOf changes one byte.
func bytesOf(r *rand.Rand, text string) string {
	b := []byte(text)
	if len(b) == 0 {
		return string(rune(r.IntN(0x3000)))
	}
	b[r.IntN(len(b))] = byte(r.IntN(256))
	return string(b)
}

// hard are texts that readers trip over.
var hard = []string{
	"", " ", "\n", "\r\n", "\t", "\x00", "\xff", "\ufeff", "\u2028", "\u202e", "é", "°", "🔥", "\"", "'", `"""`, "'''", `\`, `\u0000`, "#", "=", "==", ".", ",", ";", "|", "&",
	"%", "%00", "%zz", "+", "-", "--", "(", ")", "((((", "[", "]", "[[", "]]", "{", "}", "[a.b.c]", "{a={b={c=1}}}", "true", "null", "nil", "not", "in", "..",
	"0", "-0", "1", "-1", "00", "0x10", "1_000", "1e3", "1e309", "-1e309", "1e-400", "inf", "-inf", "nan", "NaN", "9223372036854775807", "9223372036854775808", "0.1", "1.", ".5", "1,5", "1.000,5",
	"2026-02-30", "2026-11-25T10:00:00Z", "23:59:59", "24:00:00",
}
