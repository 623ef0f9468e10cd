//go:build !race

package rules

// slack is how many times as long things may take: no longer than promised.
const slack = 1
