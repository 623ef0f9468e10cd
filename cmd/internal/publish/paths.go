package publish

import (
	"fmt"
	"strings"
)

func boardPath(board string) string { return "boards/" + fileName(board) + ".html" }

func cardPath(board, chip, room string) string {
	return "cards/" + fileName(board) + "/" + fileName(chip) + "/" + fileName(room) + ".html"
}

func chartPath(board, chip, room string) string {
	return "charts/" + fileName(board) + "/" + fileName(chip) + "/" + fileName(room) + ".svg"
}

// fileName writes an id so that it is a plain name on every file system and in
// every address: small letters, digits and hyphens stay, every other byte
// becomes "_" and its two hexadecimal digits. No two ids have the same name.
func fileName(id string) string {
	var b strings.Builder
	for _, c := range []byte(id) {
		if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' {
			b.WriteByte(c)
			continue
		}
		fmt.Fprintf(&b, "_%02x", c)
	}
	return b.String()
}
