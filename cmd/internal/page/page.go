// Package page writes answers as HTML for people: the page that asks and
// answers, the card that a buying guide frames, and the pages of a published
// guide. It knows nothing of HTTP.
package page

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"strings"
	"sync"

	"hotroom/cmd/internal/harmless"
	"hotroom/cmd/internal/unit"

	"hotroom/cmd/internal/chart"
)

//go:embed templates/*.html assets/*
var files embed.FS

// parsed reads the templates when the first page is written, and not before.
var parsed = sync.OnceValues(func() (*template.Template, error) {
	return template.New("").Funcs(template.FuncMap{"cardStyle": cardStyle, "cardPolicy": cardPolicy, "kept": unit.Keep}).ParseFS(files, "templates/*.html")
})

// render writes a template. Whatever texts stand in it, no character of the
// outcome steers a terminal or turns the direction of writing.
func render(name string, data any) ([]byte, error) {
	all, err := parsed()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := all.ExecuteTemplate(&b, name, data); err != nil {
		return nil, err
	}
	lines := strings.Split(b.String(), "\n")
	kept := lines[:0]
	for _, line := range lines {
		if line = strings.TrimSpace(line); line != "" {
			kept = append(kept, harmless.Text(line))
		}
	}
	return []byte(strings.Join(kept, "\n") + "\n"), nil
}

// Asset is a file that pages refer to by a name that changes with its contents.
type Asset struct {
	Kind  string // style, page or icon
	Name  string // style-0123abcd.css
	Media string
	Body  []byte
}

// Assets are the style sheet, the script and the icon, read once.
var Assets = sync.OnceValue(func() [3]Asset {
	return [3]Asset{
		asset("style", "css", "text/css; charset=utf-8", chart.StyleSheet()),
		asset("page", "js", "text/javascript; charset=utf-8", ""),
		asset("icon", "svg", "image/svg+xml", ""),
	}
})

func asset(name, ending, media, more string) Asset {
	body, err := fs.ReadFile(files, "assets/"+name+"."+ending)
	if err != nil { // the files are part of the program
		return Asset{}
	}
	body = append(body, more...)
	sum := sha256.Sum256(body)
	return Asset{name, fmt.Sprintf("%s-%s.%s", name, hex.EncodeToString(sum[:4]), ending), media, body}
}

// Site says where a page stands, for its links.
type Site struct {
	Home   string // the page that asks: "/"
	Assets string // the folder of the assets: "/", or "../"
	Static bool   // the page is a file that nobody serves with header fields
}

// Policy is what a static page says of itself.
func (s Site) Policy() string { return StaticPolicy() }

// Style, Script and Icon are the addresses of the assets.
func (s Site) Style() string  { return s.Assets + Assets()[0].Name }
func (s Site) Script() string { return s.Assets + Assets()[1].Name }
func (s Site) Icon() string   { return s.Assets + Assets()[2].Name }

// Styles lists the style sheets that stand inside cards and pictures, as a
// content security policy names them (CSP 3, 2.3.1).
func Styles() []string { return []string{hashed(string(cardStyle())), hashed(chart.StyleSheet())} }

func hashed(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// inset draws a scale that stands inside a page.
func inset(m chart.Margin, width float64) template.HTML {
	m.Width = width
	return drawn(m.Inset)
}

// drawn gives a picture as part of a page: the chart package escapes every text
// in it.
func drawn(write func(io.Writer) error) template.HTML {
	var b strings.Builder
	_ = write(&b) // a Builder never fails
	return template.HTML(b.String())
}
