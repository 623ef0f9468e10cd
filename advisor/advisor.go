// Package advisor joins knowledge and rules: it turns a question into facts,
// judges them by the rules and returns the advice. The physics stands in the
// sub-packages, one effect each.
package advisor
