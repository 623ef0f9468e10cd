// Package knowledge reads the plain files that a reviewer keeps: chips,
// boards, power stages, surroundings and measured runs. It checks them, says
// every mistake at its place, and knows nothing of physics, rules or answers.
package knowledge

// Base is everything a folder holds, checked and ready; nobody changes it
// after loading. Records keep the order of the files.
type Base struct {
	Chips        []Chip
	Boards       []Board
	Stages       []Stage
	Enclosures   []Enclosure
	Coolers      []Cooler
	Loads        []Load
	Rooms        []Room
	Thermometers []Thermometer
	Runs         []Run

	// Hash is the hexadecimal SHA-256 of the files' names and contents.
	Hash string

	index index
}
