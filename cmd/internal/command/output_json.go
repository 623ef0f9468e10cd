package command

import (
	"encoding/json"
	"strings"
)

// inJSON writes a value indented by two spaces, with a newline at the end.
// JSON itself escapes control characters.
func inJSON(value any) (string, error) {
	var b strings.Builder
	encoder := json.NewEncoder(&b)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(value); err != nil {
		return "", err
	}
	return b.String(), nil
}
