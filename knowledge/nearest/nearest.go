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

// Distance counts the letters to insert, delete, replace or swap with their
// neighbour to turn one word into the other (optimal string alignment).
func Distance(a, b string) int {
	from, to := []rune(a), []rune(b)
	before := make([]int, len(to)+1)
	above := make([]int, len(to)+1)
	row := make([]int, len(to)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(from); i++ {
		row[0] = i
		for j := 1; j <= len(to); j++ {
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+differ(from[i-1], to[j-1]))
			if i > 1 && j > 1 && from[i-1] == to[j-2] && from[i-2] == to[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(to)]
}

func differ(a, b rune) int {
	if a == b {
		return 0
	}
	return 1
}

func abs(n int) int {
	return max(n, -n)
}
