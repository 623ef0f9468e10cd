package expression

import (
	"slices"
	"strings"

	"hotroom/knowledge/nearest"
	"hotroom/rules/facts"
)

// vocabulary is everything that an expression may name, to find out what was
// meant by a name that is no fact's.
type vocabulary struct {
	names  []string            // the facts' full names, in the struct's order
	groups map[string][]string // group → its facts without the group
}

func newVocabulary(all []facts.Fact) *vocabulary {
	v := &vocabulary{
		names:  make([]string, 0, len(all)),
		groups: map[string][]string{},
	}
	for _, f := range all {
		group, leaf, _ := strings.Cut(f.Name, ".")
		v.names = append(v.names, f.Name)
		v.groups[group] = append(v.groups[group], leaf)
	}
	return v
}

// suggest says what an unknown name may have been meant to be.
func (v *vocabulary) suggest(name string) string {
	group, leaf, dotted := strings.Cut(name, ".")
	if !dotted {
		leaf = name
	}
	if near, ok := nearest.Word(leaf, v.groups[group]); ok {
		return didYouMean(group + "." + near)
	}
	if same := v.called(leaf); len(same) > 0 {
		return didYouMean(same...)
	}
	if near, ok := nearest.Word(name, v.names); ok {
		return didYouMean(near)
	}
	return "the list of facts names all that rules may use"
}

// called gives the facts of any group whose own name is the given one, three
// at most.
func (v *vocabulary) called(leaf string) []string {
	var same []string
	for _, name := range v.names {
		if strings.HasSuffix(name, "."+leaf) {
			same = append(same, name)
		}
	}
	return same[:min(len(same), 3)]
}

func didYouMean(names ...string) string {
	return "did you mean " + strings.Join(names, " or ") + "?"
}

// function is one of the few functions that rules may call.
type function struct{ least, most int } // arguments

var functions = map[string]function{
	"abs":   {1, 1},
	"ceil":  {1, 1},
	"clamp": {3, 3},
	"floor": {1, 1},
	"known": {1, 1},
	"max":   {2, 20},
	"min":   {2, 20},
	"round": {1, 1},
}

func functionNames() []string {
	names := make([]string, 0, len(functions))
	for name := range functions {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// suggestFunction says which function may have been meant.
func suggestFunction(name string) string {
	names := functionNames()
	if near, ok := nearest.Word(name, names); ok {
		return didYouMean(near)
	}
	return "the functions are " + strings.Join(names, ", ")
}
