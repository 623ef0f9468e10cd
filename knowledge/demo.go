package knowledge

import (
	"embed"
	"io/fs"
)

//go:embed demo
var embedded embed.FS

// Demo is the knowledge that the program carries with it: invented makers,
// boards, chips and runs to try it on.
func Demo() fs.FS {
	demo, err := fs.Sub(embedded, "demo")
	if err != nil {
		return embedded // cannot happen: the name is a valid path
	}
	return demo
}
