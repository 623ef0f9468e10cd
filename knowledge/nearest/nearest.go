// Package nearest finds the known word that a mistyped one was meant to be.
package nearest

import (
	"strings"
	"unicode/utf8"
)

// Word gives the known word closest to the given one, and whether any is
// close enough to be worth suggesting: about one slip for every three letters,
// and never so many that the whole word changes. Upper and lower case count as
// the same; of equally close words the first known one is taken.
func Word(given string, known []string) (best string, ok bool) {
	from := strings.ToLower(given)
	letters := utf8.RuneCountInString(from)
	least := slips(letters) + 1
	for _, word := range known {
		to := strings.ToLower(word)
		n := utf8.RuneCountInString(to)
		if abs(letters-n) >= least {
			continue
		}
		d := Distance(from, to)
		if d < least && d < max(letters, n) {
			best, least, ok = word, d, true
		}
	}
	return best, ok
}

// slips is the number of mistakes allowed in a word of n letters: one below
// five letters, then one more for every three, four at most. Common practice,
// no source.
func slips(n int) int {
	return min(max(1, (n+1)/3), 4)
}

// Within reports whether the distance of two words is at most a number of
// letters.
func Within(a, b string, most int) bool {
	return abs(utf8.RuneCountInString(a)-utf8.RuneCountInString(b)) <= most && distance(a, b, most) <= most
}

// Distance counts the letters to insert, delete, replace or swap with their
// neighbour to turn one word into the other (optimal string alignment).
func Distance(a, b string) int { return distance(a, b, len(a)+len(b)) }

// distance is that, or anything above most where it is more than most.
func distance(a, b string, most int) int {
	from, to := []rune(a), []rune(b)
	var space [3 * usual]int
	rows := space[:]
	if n := 3 * (len(to) + 1); n > len(rows) {
		rows = make([]int, n)
	}
	n := len(rows) / 3
	before, above, row := rows[:n], rows[n:2*n], rows[2*n:]
	for j := range len(to) + 1 {
		above[j] = j
	}
	for i := 1; i <= len(from); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(to); j++ {
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+differ(from[i-1], to[j-1]))
			if i > 1 && j > 1 && from[i-1] == to[j-2] && from[i-2] == to[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
			least = min(least, row[j])
		}
		if least > most { // no later row has less, a swap past this one included: that costs one, and so does this row
			return least
		}
		before, above, row = above, row, before
	}
	return above[len(to)]
}

// usual is the longest word, and one, that takes no memory of its own.
const usual = 32

func differ(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}

func abs(n int) int {
	return max(n, -n)
}
