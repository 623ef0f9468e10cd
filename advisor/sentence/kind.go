package sentence

// A cue is a way to say which kind of answer is wanted.
type cue struct {
	kind    Kind
	over    string
	pattern pattern
	// bare cues count only where no number follows: "max power" asks,
	// "max power 180 W" tells.
	bare bool
	// alone cues count only where the sentence names no board and no chip.
	alone bool
	// lax cues give way to a board that is named: "is the Kiln a good one?"
	lax bool
}

// cues are tried in their order; the first that is found decides.
var cues = []cue{
	// What led to the last answer, and what would change it.
	{kind: Changes, alone: true, pattern: "what|which ?things|thing would|could|will|can ?i|we change|help|fix|improve|make ?it|that|this|things ?a|work|better|yes|pass|ok ?yes"},
	{kind: Changes, alone: true, pattern: "what ?else can|could|should|do i|we ?need ?to do|change|improve ?about ?it|that|this"},
	{kind: Changes, alone: true, pattern: "how ?do|can|could|would ?i|we|you fix|improve|help|solve|change|make it|that|this|things ?work|better"},
	{kind: Why, alone: true, pattern: "why ?not|so|is|that|this ?that|it|this ?so"},
	{kind: Why, alone: true, pattern: "how come|so"},
	{kind: Why, alone: true, pattern: "how do you know ?that|this"},
	{kind: Why, alone: true, pattern: "explain|because ?that|this|it|yourself"},
	// How far can the room go?
	{kind: HowFar, over: OverRoom, pattern: "how hot|warm|much can|could|may|should|might|must|is ?the|my|a|your|this|our PLACE|surroundings"},
	{kind: HowFar, over: OverRoom, pattern: "how hot|warm can|could|may|should it|things ?get|be|become in my|the|here|our"},
	{kind: HowFar, over: OverRoom, pattern: "how hot|warm ... before|until|till"},
	{kind: HowFar, over: OverRoom, pattern: "how hot|warm is too hot|warm|much"},
	{kind: HowFar, over: OverRoom, pattern: "hottest|warmest|highest ?that ?the|my|our|a PLACE ?temperature can|could|may|should|is|before"},
	{kind: HowFar, over: OverRoom, pattern: "how much hotter|warmer ?can|could|may"},
	{kind: HowFar, over: OverRoom, bare: true, pattern: "maximum|max|highest|hottest|warmest|top|worst ?allowed|safe|possible PLACE|ambient ?temperature|temp|temps"},
	{kind: HowFar, over: OverRoom, bare: true, pattern: "?at ?upto|to|until|till|for what|which|wat room|ambient temperature|temp|temps|temperatures"},
	{kind: HowFar, over: OverRoom, bare: true, pattern: "upto|until|till|to what|which|how ?many|much|high temperature|temp|degrees|hot|warm ?of ?the|my ?room|ambient"},
	{kind: HowFar, over: OverRoom, pattern: "at what|which temperature|temp|point ?of ?the ?room|ambient does|will|would|do"},
	{kind: HowFar, over: OverRoom, pattern: "how far|high ... PLACE|ambient|room"},
	// How far can the power go?
	{kind: HowFar, over: OverPower, pattern: "how far|high ... power|watts|wattage|amps|current|limit|limits"},
	{kind: HowFar, over: OverPower, pattern: "how many|much watts|watt|w|amps|power|wattage|current|juice"},
	{kind: HowFar, over: OverPower, bare: true, pattern: "most ?that i|it|we|you can|could ?safely draw|pull|give|feed|put|push"},
	{kind: HowFar, over: OverPower, bare: true, pattern: "?the most|maximum|max|highest|biggest ?safe|allowed|possible|sustained|package power|wattage|watts|watt"},
	{kind: HowFar, over: OverPower, bare: true, pattern: "what|which ?is ?the wattage|watts|power|powerlimit ?limit can|could|will|would|is|may"},
	// How far at all?
	{kind: HowFar, pattern: "how far|high ... go|push|take|stretch|before|get|raise"},
	{kind: HowFar, pattern: "how far|high can|could|may"},
	{kind: HowFar, pattern: "how much headroom|margin|slack|room|further|spare|reserve ?is|do|does|left"},
	{kind: HowFar, pattern: "what|whats ?is ?the|my headroom|ceiling|ceilings"},
	// Which board?
	{kind: Which, pattern: "which|what|wich|witch board|boards|motherboard|motherboards|mobo|mobos|mainboard|mainboards"},
	{kind: Which, pattern: "cheapest|cheepest ?good|decent|ok|safe|possible|adequate ?board|motherboard|mobo|mainboard|one|thing|option"},
	{kind: YesNo, pattern: "need ?a|any better|bigger|stronger|different|another|new board|motherboard|mobo|one ?than"},
	{kind: Which, pattern: "a|any|something ?much cheaper|better|stronger|smaller board|motherboard|mobo|mainboard|one|option|alternative|than"},
	{kind: Which, pattern: "recommend|recommendation|recommendations|suggest|suggestion|suggestions|alternative|alternatives"},
	{kind: Which, pattern: "looking|searching|shopping|hunting|search for ?a|an|some|the ?new|good|decent|cheap|cheaper|right|best ?cheap|good board|motherboard|mobo|mainboard|boards"},
	{kind: Which, lax: true, pattern: "need|want|get|find|buy|pick|choose ?me a|an|some ?new|good|decent|cheap ?cheap|good|new board|motherboard|mobo|mainboard|boards"},
	{kind: Which, pattern: "any|other|every|all|good|some ?the|other|good|decent|cheap boards|motherboards|mobos|mainboards"},
	{kind: Which, lax: true, pattern: "any|good|cheap|decent|some ?good|decent|cheap board|motherboard|mobo|mainboard ?for|that|which|with|to"},
	{kind: Which, pattern: "show|list|rank|give|name ?me ?all|the|every ?the ?best everything|board|boards|all|options|motherboards|choices|ranking"},
	{kind: Which, lax: true, pattern: "best ?value|budget|cheap|overall ?board|motherboard|mobo|mainboard|option|choice|pick|one|buy|match"},
	{kind: Which, lax: true, pattern: "a|the board|motherboard|mobo|mainboard for|that"},
	{kind: Which, lax: true, pattern: "something cheap|decent|good|solid|affordable ?for|that|to"},
	{kind: Which, lax: true, pattern: "what should|shall|do|would|could|can i|we|you buy|get|pick|choose|use|take"},
	{kind: Which, lax: true, pattern: "what|which|whatever goes|works|fits|suits|runs|handles|takes ?well|best ?with"},
	// Boards side by side.
	{kind: Compare, pattern: "compare|compared|comparison|comparing|versus|vs|difference|differences"},
	{kind: Compare, pattern: "better|cooler|hotter|worse|safer|stronger|warmer than"},
	// How hot?
	{kind: HowHot, pattern: "how ?much|very hot|warm|toasty|cool|hotter"},
	{kind: HowHot, pattern: "what|which|whats|wat ?is|are|sort|kind|will|would ?of ?be ?the ?my|vrm|board|regulator|expected|hot ?spot temp|temps|temperature|temperatures|tempratures|temprature"},
	{kind: HowHot, pattern: "vrm|vrms|hotspot|expected|regulator|mosfet|board temp|temps|temperature|temperatures"},
	{kind: HowHot, pattern: "?expected|the hotspot ?temp|temperature"},
	{kind: HowHot, pattern: "expected|the hot spot ?temp|temperature"},
	{kind: HowHot, pattern: "how many|what degrees|degree"},
	{kind: HowHot, pattern: "temps|temperatures|temperature|temp of|on|for|from|does|will|do|can|with ?the|my|a"},
	{kind: HowHot, pattern: "temps|temperatures"},
	// A plain yes or no.
	{kind: YesNo, pattern: "will|would|can|could|does|is|are|should|am|may|safe|ok|okay|fine|enough|possible|survive|cope ... ?it"},
}

// kindCue finds the kind of answer that is wanted and takes its words out of
// the sentence, but those of a plain yes or no.
func (r *reader) kindCue() {
	for i := range cues {
		c := &cues[i]
		from, to, ok := c.pattern.find(r.tokens)
		if !ok || c.bare && r.numberSoon(to) {
			continue
		}
		r.cue = c
		if c.kind != YesNo {
			r.use(from, to)
		}
		return
	}
}

// numberSoon reports whether a number follows, with at most words like "is"
// or "of" between.
func (r *reader) numberSoon(from int) bool {
	for i := from; i < len(r.tokens); i++ {
		if r.tokens[i].number != "" {
			return true
		}
		if !oneOf(r.tokens[i].fold, "of is was at to about around") {
			return false
		}
	}
	return false
}

// settleKind weighs the cue against the boards that are named.
func (r *reader) settleKind() {
	out := &r.out
	named := len(r.found[board]) > 0
	switch c := r.cue; {
	case len(out.Boards) > 1:
		out.Kind = Compare
	case c == nil && out.Budget != nil && !named:
		out.Kind = Which
	case c == nil, c.alone && (named || len(r.found[chip]) > 0), c.lax && named:
	case c.kind == Compare && out.Question.Board != "" && r.known.Board != "" && r.known.Board != out.Question.Board:
		out.Kind, out.Boards = Compare, []string{r.known.Board, out.Question.Board}
		out.Question.Board = ""
	case c.kind == Compare:
	case c.kind == YesNo && out.Budget != nil && !named:
		out.Kind = Which
	default:
		out.Kind, out.Over = c.kind, c.over
	}
	r.tellKind()
}

// choices of things that no answer chooses: they are reported, and the rest of
// the sentence is answered.
var notChosen = []pattern{
	"which|what ?kind|sort|type ?of cooler|coolers|cooling|case|cases|enclosure|fan|fans|gpu|psu|heatsink|paste|ram|memory ?is|should|would|do|to|for",
}

// otherChoice reports a choice that is asked for and not made.
func (r *reader) otherChoice() {
	for _, p := range notChosen {
		if from, to, ok := p.find(r.tokens); ok {
			r.out.Unplaced = append(r.out.Unplaced, r.text(from, to))
			r.use(from, to)
		}
	}
}

// tellKind says which kind of answer was taken to be wanted.
func (r *reader) tellKind() {
	out := &r.out
	if out.Budget != nil && out.Kind != Which {
		r.take("the budget counts only where a choice of boards is asked for")
	}
	switch out.Kind {
	case Which:
		r.take("wanted: which board")
		r.sayBoardUnused()
	case HowHot:
		r.take("wanted: how hot")
	case HowFar:
		r.take("wanted: how far %s can go", map[string]string{OverRoom: "the room", OverPower: "the power", "": "it"}[out.Over])
	}
}

// sayBoardUnused: a ranking is over every board, so one that is named as well
// is not counted.
func (r *reader) sayBoardUnused() {
	if r.out.Question.Board == "" {
		return
	}
	for _, f := range r.found[board] {
		r.out.Unplaced = append(r.out.Unplaced, f.text)
	}
	r.out.Question.Board = ""
}
