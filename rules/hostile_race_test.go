//go:build race

package rules

// slack is how many times as long things may take under the race detector.
const slack = 10
