package knowledge

import (
	"embed"
	"io/fs"
)

//go:generate go test . -run ^TestDemoIsWrittenAsItsFilesSay$ -update

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

// DemoBase gives the demo without reading it: what Read makes of its files
// stands in the program already, which a test holds. That saves a one-shot
// answer a quarter of its time.
func DemoBase() *Base { return New(demoBase) }
