package expression

import (
	"fmt"
	"strings"

	"hotroom/knowledge/document"

	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/parser"
)

const mendSyntax = "write it as in margin.kept_c < 5"

// parse reads the text into a tree, within the bounds.
func parse(text Text) (tree *parser.Tree, problems document.Problems) {
	source := text.String()
	switch comment := commentAt(source); {
	case strings.TrimSpace(source) == "":
		return nil, document.Problems{text.Problem(0, "the expression is empty", mendSyntax)}
	case len(source) > mostBytes:
		return nil, document.Problems{text.Problem(0,
			fmt.Sprintf("the expression has %d bytes, and %d are allowed", len(source), mostBytes), "split it into several rules")}
	case comment >= 0:
		return nil, document.Problems{text.Problem(comment,
			"a comment stands inside the expression", "put it on a line of its own that starts with #")}
	}
	// The parser is the library's; should it ever give up on an odd text, that
	// is a mistake in the file and not the end of the program.
	defer func() {
		if r := recover(); r != nil {
			problems = document.Problems{text.Problem(0, fmt.Sprintf("this cannot be read as an expression (%v)", r), mendSyntax)}
		}
	}()
	// A lean configuration starts quickly; what may be called is checked later.
	tree, err := parser.ParseWithConfig(source, &conf.Config{MaxNodes: mostParts, DisableIfOperator: true})
	if err != nil {
		return nil, document.Problems{syntax(text, err)}
	}
	return tree, nil
}

// commentAt finds // or /* outside quotes, or gives -1.
func commentAt(s string) int {
	quote := byte(0)
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case quote != 0 && c == '\\' && quote != '`':
			i++
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'' || c == '`':
			quote = c
		case c == '/' && i+1 < len(s) && (s[i+1] == '/' || s[i+1] == '*'):
			return i
		}
	}
	return -1
}

// plainSyntax puts the parser's message into plain words.
func plainSyntax(message string) (what, mend string) {
	if strings.Contains(message, "maximum allowed nodes") {
		return fmt.Sprintf("the expression has more than %d parts", mostParts), "split it into several rules"
	}
	token, ok := strings.CutPrefix(message, "unexpected token ")
	switch {
	case token == "EOF":
		return "the expression ends too early", mendSyntax
	case ok:
		_, token, _ = strings.Cut(token, "(")
		return strings.TrimSuffix(token, ")") + " is out of place here", mendSyntax
	}
	return "this cannot be read as an expression (" + message + ")", mendSyntax
}
