package command

import "hotroom/cmd/internal/harmless"

// safe makes a text out of files and questions harmless for a terminal.
func safe(text string) string { return harmless.Text(text) }

// safely makes every text of a list harmless.
func safely(list []string) []string {
	out := make([]string, len(list))
	for i, text := range list {
		out[i] = safe(text)
	}
	return out
}
