// Package document reads a TOML file into values that remember where they
// stand, so that every mistake can be reported at its line and column.
//
// It is a leaf: it knows TOML, Go structs and places, and nothing of boards
// or rules. Both the knowledge and the rules are read through it.
package document
