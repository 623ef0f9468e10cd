package rules

import (
	"fmt"
	"strings"
)

// attack is a rules file from a stranger. It is either refused with a sentence
// and a place, of which want is the first, or judged (want is empty).
type attack struct {
	name string
	file string
	want string
}

// fine is a rule that asks nothing of a file.
const fine = "\n[[rule]]\nname = \"fine\"\nkind = \"caution\"\nwhen = \"true\"\nsay = \"s\"\n"

// catalogued is a whole file around the text of some rules.
func catalogued(text string) string { return head + verdicts + text }

// The next three put one hostile text, written as TOML writes one, into an
// otherwise plain rule. It stands at line 24, column 8, or 25 and 26.
func when(x string) string  { return hostileRule(x, "1", `"s"`) }
func worth(x string) string { return hostileRule("true", x, `"s"`) }
func said(text string) string {
	return catalogued("\n[[rule]]\nname = \"r\"\nkind = \"caution\"\nwhen = 'true'\nsay = " + text + "\n")
}

func hostileRule(when, points, say string) string {
	return catalogued("\n[[rule]]\nname = \"r\"\nkind = \"caution\"\nwhen = '''" + when + "'''\npoints = '''" + points + "'''\nsay = " + say + "\n")
}

// many repeats a rule under different names.
func many(n int, when, points, say string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "[[rule]]\nname = \"%d\"\nkind = \"caution\"\nwhen = '%s'\npoints = '%s'\nsay = '%s'\n", i, when, points, say)
	}
	return catalogued(b.String())
}

// filled repeats a rule as often as a file may.
func filled(when, points, say string) string {
	return many(min(mostRules, (MostBytes-1000)/len(many(1, when, points, say))), when, points, say)
}

func repeat(n int, text string) string { return strings.Repeat(text, n) }

// nested puts text inside n times before and after.
func nested(n int, before, text, after string) string {
	return repeat(n, before) + text + repeat(n, after)
}

const (
	kept = "margin.kept_c"
	long = 100_000 // bytes of what is overlong
)

// looping would run for long, or without end.
func looping() []attack {
	return []attack{
		{"nested predicates", when("all(1..300, all(1..300, all(1..300, # > 0)))"), "stranger.toml:26:11: no function is called all: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"map and filter", when("map(1..999999, # * #) == filter(1..999999, # > 2)"), "stranger.toml:26:11: no function is called map: did you mean max?"},
		{"reduce", worth("reduce(1..1000000000, #acc + #)"), "stranger.toml:27:13: no function is called reduce: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"sum of a range", worth("sum(1..1000000000)"), "stranger.toml:27:13: no function is called sum: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"groupBy", when("groupBy(1..1000000, # % 7) == 1"), "stranger.toml:26:11: no function is called groupBy: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"sortBy", when("sortBy(1..1000000, -#) == 1"), "stranger.toml:26:11: no function is called sortBy: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"sort", when("sort(1..1000000) == 1"), "stranger.toml:26:11: no function is called sort: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"count and any", when("count(1..99999, any(1..99999, # == 1)) > 1"), "stranger.toml:26:11: no function is called count: did you mean round?"},
		{"findLast", when("findLast(1..100000000, # == 0) == 1"), "stranger.toml:26:11: no function is called findLast: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"pipes", when("1..100000000 | map(# + 1) | filter(# > 1)"), "stranger.toml:26:39: no function is called filter: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"range of whole numbers", when("asked.room_c in 1..1000000000"), "stranger.toml:26:27: a range such as 6..8 has no 6.6 in it: write x >= 6 && x <= 8"},
		{"range of decimals", when("asked.room_c in 0.5..1e300"), "stranger.toml:26:27: a range such as 6..8 has no 6.6 in it: write x >= 6 && x <= 8"},
		{"range backwards", when("asked.room_c in 9223372036854775807..-9223372036854775808"), "stranger.toml:26:67: this cannot be read as an expression (invalid integer literal: strconv.ParseInt: parsing \"9223372036854775808\": value out of range): write it as in margin.kept_c < 5"},
		{"list of lists", when("asked.room_c in [[1], [2]]"), "stranger.toml:26:28: a list may hold only numbers and words in quotes: write it as in [\"rated\", \"shipped\"]"},
		{"pattern that blows up", when(`board.name matches "(a+)+(a+)+(a+)+$"`), "stranger.toml:26:11: matches is not available: use ==, in, contains, startsWith or endsWith"},
		{"pattern of constants", when(`"` + repeat(500, "a") + `" matches "(a|aa)+$"`), "stranger.toml:26:11: matches is not available: use ==, in, contains, startsWith or endsWith"},
		{"pattern with a count", when(`board.name matches "((a{0,1000}){0,1000}){0,1000}"`), "stranger.toml:26:11: matches is not available: use ==, in, contains, startsWith or endsWith"},
	}
}

// growing would take memory without bound.
func growing() []attack {
	return []attack{
		{"repeat", when(`repeat("ab", 1000000000) == ""`), "stranger.toml:26:11: no function is called repeat: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"joined words", when(`board.name + board.name == ""`), "stranger.toml:26:11: + needs a number, and this is a word: write a number or a fact that is one, as in margin.kept_c"},
		{"join", when(`join(["a", "b"], board.name) == ""`), "stranger.toml:26:11: no function is called join: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"replace", when(`replace(board.name, "", "xxxxxxxx") == ""`), "stranger.toml:26:11: no function is called replace: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"split", when(`split(board.name, "") == 1`), "stranger.toml:26:11: no function is called split: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"format", when(`sprintf("%1000000000d", 1) == ""`), "stranger.toml:26:11: no function is called sprintf: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"to and from JSON", when(`toJSON($env) == ""`), "stranger.toml:26:11: no function is called toJSON: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"to text", when(`string($env) == ""`), "stranger.toml:26:11: no function is called string: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"base 64", when(`toBase64(board.name) == ""`), "stranger.toml:26:11: no function is called toBase64: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"upper case", when(`upper(board.name) == ""`), "stranger.toml:26:11: no function is called upper: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"let doubling", when(`let a = "x" + "x"; let b = a + a; let c = b + b; c == ""`), "stranger.toml:26:15: let is not available: write the expression out"},
		{"list of 50,000", when("asked.room_c in [" + repeat(50_000, "1,") + "1]"), "stranger.toml:26:11: the expression has 100019 bytes, and 2000 are allowed: split it into several rules"},
		{"list of 900", when("asked.room_c in [" + repeat(900, "1,") + "1]"), "stranger.toml:26:423: the expression has more than 200 parts: split it into several rules"},
		{"map in braces", when(`{"a": {"b": {}}} == 1`), "stranger.toml:26:11: braces are not available: write a condition or a number"},
		{"text without end", said(`"` + repeat(long, "x") + `"`), "stranger.toml:27:8: say has 100000 bytes, and 1000 are allowed: shorten it"},
		{"text of parts without end", said(`"` + repeat(long/12, "{board.name}") + `"`), "stranger.toml:27:8: say has 99996 bytes, and 1000 are allowed: shorten it"},
		{"text of texts", said(`"{asked.tuned ? '{board.name}{board.name}' : '{board.name}'}"`), ""},
		{"text of many numbers", said(`"` + repeat(20, "{1e308:6}") + `"`), ""},
		{"text of braces", said(`"` + repeat(long/2, "}}") + `"`), "stranger.toml:27:8: say has 100000 bytes, and 1000 are allowed: shorten it"},
		{"text of closing braces", said(`"` + repeat(long/2, "} ") + `"`), "stranger.toml:27:8: say has 100000 bytes, and 1000 are allowed: shorten it"},
		{"text of opening braces", said(`"` + repeat(long/2, "{ ") + `"`), "stranger.toml:27:8: say has 100000 bytes, and 1000 are allowed: shorten it"},
		{"stretched braces", said(`"""` + repeat(480, "} \\\n"+repeat(200, " ")) + `"""`), "stranger.toml:27:10: this } closes nothing: write }} for a brace"},
		{"stretched names", said(`"""` + repeat(60, "{a.b} {c} \\\n"+repeat(1500, " ")) + `"""`), "stranger.toml:27:11: no fact is called \"a.b\": the list of facts names all that rules may use"},
		{"stretched condition", catalogued("[[rule]]\nname='r'\nkind='caution'\nsay='s'\nwhen = \"\"\"" + repeat(60, "a.b>1|| \\\n"+repeat(1500, " ")) + "true\"\"\"\n"), "stranger.toml:59:1506: the expression has more than 200 parts: split it into several rules"},
		{"decimals without end", said(`"{margin.kept_c:999999999}"`), "stranger.toml:27:22: \":\" is out of place here: write it as in margin.kept_c < 5"},
		{"most decimals", said(`"{margin.kept_c:9}"`), "stranger.toml:27:23: more than 6 decimals are asked for: ask for 0 to 6"},
	}
}

// reaching would get at what is not a fact.
func reaching() []attack {
	return []attack{
		{"now()", when("now()"), "stranger.toml:26:11: no function is called now: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{`date("2024-01-01")`, when(`date("2024-01-01")`), "stranger.toml:26:11: no function is called date: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{`duration("1h")`, when(`duration("1h")`), "stranger.toml:26:11: no function is called duration: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{`timezone("UTC")`, when(`timezone("UTC")`), "stranger.toml:26:11: no function is called timezone: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"now().Unix() > 0", when("now().Unix() > 0"), "stranger.toml:26:11: facts cannot be called: name a fact without brackets"},
		{`getenv("HOME") == ""`, when(`getenv("HOME") == ""`), "stranger.toml:26:11: no function is called getenv: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{`env("HOME") == ""`, when(`env("HOME") == ""`), "stranger.toml:26:11: no function is called env: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{`os.Getenv("HOME") == ""`, when(`os.Getenv("HOME") == ""`), "stranger.toml:26:11: facts cannot be called: name a fact without brackets"},
		{`readFile("/etc/passwd") == ""`, when(`readFile("/etc/passwd") == ""`), "stranger.toml:26:11: no function is called readFile: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{`get($env, "margin") == 1`, when(`get($env, "margin") == 1`), "stranger.toml:26:11: no function is called get: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"$env == 1", when("$env == 1"), "stranger.toml:26:11: no fact is called \"$env\": the list of facts names all that rules may use"},
		{"$env.margin.kept_c > 5", when("$env.margin.kept_c > 5"), "stranger.toml:26:11: no fact is called \"$env.margin.kept_c\": the list of facts names all that rules may use"},
		{`$env["margin"] == 1`, when(`$env["margin"] == 1`), "stranger.toml:26:11: no fact is called \"$env.margin\": the list of facts names all that rules may use"},
		{`env["margin"] == 1`, when(`env["margin"] == 1`), "stranger.toml:26:11: no fact is called \"env.margin\": the list of facts names all that rules may use"},
		{"margin.String() == ''", when("margin.String() == ''"), "stranger.toml:26:11: facts cannot be called: name a fact without brackets"},
		{"margin.kept_c() > 5", when("margin.kept_c() > 5"), "stranger.toml:26:11: facts cannot be called: name a fact without brackets"},
		{"board.name.Len() > 1", when("board.name.Len() > 1"), "stranger.toml:26:11: facts cannot be called: name a fact without brackets"},
		{"margin.KeptC > 5", when("margin.KeptC > 5"), "stranger.toml:26:11: no fact is called \"margin.KeptC\": did you mean margin.kept_c?"},
		{"board.name[0:2] == ''", when("board.name[0:2] == ''"), "stranger.toml:26:11: parts of a word are not available: use contains, startsWith or endsWith"},
		{`margin["kept" + "_c"] > 5`, when(`margin["kept" + "_c"] > 5`), "stranger.toml:26:11: this way of reaching into a fact is not available: name a fact as group.fact"},
		{"margin?.kept_c > 5", when("margin?.kept_c > 5"), "stranger.toml:26:11: ?. is not available: name a fact as group.fact; none is ever missing"},
		{"known.x > 1", when("known.x > 1"), "stranger.toml:26:11: no fact is called \"known.x\": the list of facts names all that rules may use"},
		{"(margin).kept_c > 5", when("(margin).kept_c > 5"), ""},
		{"fromJSON('{}') == 1", when("fromJSON('{}') == 1"), "stranger.toml:26:11: no function is called fromJSON: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"type(margin) == ''", when("type(margin) == ''"), "stranger.toml:26:11: no function is called type: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"keys(margin) == 1", when("keys(margin) == 1"), "stranger.toml:26:11: no function is called keys: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"#.kept_c > 1", when("#.kept_c > 1"), "stranger.toml:26:11: \"#\" is out of place here: write it as in margin.kept_c < 5"},
		{"{'a': 1}.a > 0", when("{'a': 1}.a > 0"), "stranger.toml:26:11: this way of reaching into a fact is not available: name a fact as group.fact"},
		{"[margin][0] == 1", when("[margin][0] == 1"), "stranger.toml:26:11: this way of reaching into a fact is not available: name a fact as group.fact"},
		{"last([1]) == 1", when("last([1]) == 1"), "stranger.toml:26:11: no function is called last: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"rand() > 0.5", when("rand() > 0.5"), "stranger.toml:26:11: no function is called rand: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"sleep(1000) > 1", when("sleep(1000) > 1"), "stranger.toml:26:11: no function is called sleep: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"exec('id') == 0", when("exec('id') == 0"), "stranger.toml:26:11: no function is called exec: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"import('os') == 1", when("import('os') == 1"), "stranger.toml:26:11: no function is called import: the functions are abs, ceil, clamp, floor, known, max, min, round"},
		{"margin.kept_c = 5", when("margin.kept_c = 5"), "stranger.toml:26:25: \"=\" is out of place here: write it as in margin.kept_c < 5"},
		{"score = 100", when("score = 100"), "stranger.toml:26:17: \"=\" is out of place here: write it as in margin.kept_c < 5"},
		{"a/b(1, 0) > 1", when("a/b(1, 0) > 1"), "stranger.toml:26:11: no fact is called \"a\": the list of facts names all that rules may use"},
	}
}

// deep would overflow the stack of whoever reads it.
func deep() []attack {
	return []attack{
		{"open brackets", when(repeat(1990, "(")), "stranger.toml:26:2000: the expression ends too early: write it as in margin.kept_c < 5"},
		{"brackets", when(nested(950, "(", "true", ")")), ""},
		{"brackets past the bound", when(nested(long/3, "(", "true", ")")), "stranger.toml:26:11: the expression has 66670 bytes, and 2000 are allowed: split it into several rules"},
		{"square brackets", when(nested(900, "[", "1", "]")), "stranger.toml:26:1112: the expression has more than 200 parts: split it into several rules"},
		{"braces", when(repeat(900, "{a:")), "stranger.toml:26:11: the expression has 2700 bytes, and 2000 are allowed: split it into several rules"},
		{"not not not", when(repeat(1900, "!") + "true"), "stranger.toml:26:1914: the expression has more than 200 parts: split it into several rules"},
		{"minus minus", worth(repeat(1900, "-") + "1"), "stranger.toml:27:1913: the expression has more than 200 parts: split it into several rules"},
		{"not in words", when(repeat(450, "not ") + "true"), "stranger.toml:26:1814: the expression has more than 200 parts: split it into several rules"},
		{"choices", worth(repeat(180, "true?1:") + "1"), "stranger.toml:27:717: the expression has more than 200 parts: split it into several rules"},
		{"choices in the middle", worth(nested(180, "true?", "1", ":2")), "stranger.toml:27:934: the expression has more than 200 parts: split it into several rules"},
		{"calls", worth(nested(330, "abs(", "1", ")")), "stranger.toml:27:1534: the expression has more than 200 parts: split it into several rules"},
		{"members", when("a" + repeat(900, ".a") + " > 1"), "stranger.toml:26:212: the expression has more than 200 parts: split it into several rules"},
		{"sum", worth(repeat(900, "1+") + "1"), "stranger.toml:27:214: the expression has more than 200 parts: split it into several rules"},
		{"comparisons", when("1" + repeat(600, "==1")), "stranger.toml:26:312: the expression has more than 200 parts: split it into several rules"},
		{"optional members", when("a" + repeat(600, "?.a") + " > 1"), "stranger.toml:26:213: the expression has more than 200 parts: split it into several rules"},
		{"long pipe", worth("1" + repeat(400, "|abs()")), "stranger.toml:27:13: the expression has 2401 bytes, and 2000 are allowed: split it into several rules"},
		{"text in a text", when(`"` + repeat(600, `\"`) + `" == ""`), ""},
	}
}
