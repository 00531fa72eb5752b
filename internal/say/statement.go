package say

// Statement is one thing the adviser says, as data: which kind of sentence it is
// and the facts in it. It is kept beside what was said, so that it can be said
// again to another reader, or in other units. Which facts a kind has stands with
// the kinds.
type Statement struct {
	Kind StatementKind `json:"kind"`
	// About names what the sentence is about, in the words of its kind: a rule,
	// a measure, a sign, a cause.
	About string `json:"about,omitempty"`
	// Count of Of are the breaks, or misses, that show it; Since of OfSince those
	// after a change, or the cue ball in its window beside the wing ball.
	Count   int `json:"count,omitempty"`
	Of      int `json:"of,omitempty"`
	Since   int `json:"since,omitempty"`
	OfSince int `json:"of_since,omitempty"`
	// Part is the part of the setup that changes, from From by By to To as the
	// break from the left has it: inches, parts of a radius, miles an hour.
	Part string  `json:"part,omitempty"`
	From float64 `json:"from,omitempty"`
	By   float64 `json:"by,omitempty"`
	To   float64 `json:"to,omitempty"`
	// Diamond is how far apart the diamonds of the table are, for a place; 0 where
	// that is not known.
	Diamond float64 `json:"diamond,omitempty"`
	// Order is the rack order that a change of it leads to.
	Order string `json:"order,omitempty"`
	// Rate is a rate to expect.
	Rate float64 `json:"rate,omitempty"`
	// Way tells the two ways of a two-sided pattern apart.
	Way int `json:"way,omitempty"`
	// Yes is the one question a kind asks beside its facts.
	Yes bool `json:"yes,omitempty"`
	// Others are names like About; Parts are the statements it is made of.
	Others []string    `json:"others,omitempty"`
	Parts  []Statement `json:"parts,omitempty"`
}

// StatementKind is the kind of a sentence.
type StatementKind string

// The answers at the top of a page.
const (
	NothingYet  StatementKind = "nothing yet"
	CoachChose  StatementKind = "coach chose"  // Yes: the present setup
	DoChange    StatementKind = "do"           // Part, From, By, To or Order; Diamond for a place; Yes: the speed is nobody's number
	NoRoomLeft  StatementKind = "no room left" // About: the rule's title
	SetupWorks  StatementKind = "setup works"
	NothingElse StatementKind = "nothing points to a change"
	NoCause     StatementKind = "no cause"   // wing ball Count of Of, window Since of OfSince
	TooEarly    StatementKind = "too early"  // Count breaks so far
	CheckRack   StatementKind = "check rack" // wing ball Count of Of
	NotEnough   StatementKind = "not enough" // as NoCause; Parts: what else is to be told
)

// The reasons of a change.
const (
	Together    StatementKind = "together"     // Parts, one sentence after another
	HurtLast    StatementKind = "hurt last"    // About: the measure; Count of Of before, Since of OfSince since
	WasBetter   StatementKind = "was better"   // About: the measure, of a setup tried before the last; Count of Of there, Since of OfSince here
	Because     StatementKind = "because"      // Parts: the finding; About: how the reason goes on
	Weighed     StatementKind = "weighed"      // Parts: the signs, or one finding; About: the cause; Others: the rivals
	Sign        StatementKind = "sight"        // About in Count of Of; named so where it is kept
	AllTogether StatementKind = "all together" // no single count shows it
	KeptSetup   StatementKind = "kept setup"
	// MeasuredSpeed is said where another speed was asked, From, than was measured, To the
	// middle one of Count of Of breaks of the last set. Yes: what to do about it, too.
	MeasuredSpeed StatementKind = "measured speed"
)

// What was counted: About is the rule, Count of Of the breaks or misses.
const (
	Finding        StatementKind = "finding"         // Way: which side misses went
	SoftFinding    StatementKind = "soft finding"    // rails were not counted
	UnaimedFinding StatementKind = "unaimed finding" // misses do not say which way
)

// What to look for.
const (
	ExpectBefore   StatementKind = "expect before" // About: the measure, Count of Of
	ExpectOf       StatementKind = "expect of"     // About: the rule
	ExpectRate     StatementKind = "expect rate"   // About: what, at Rate; Count of Of so far
	ExpectSteadier StatementKind = "expect steadier"
	AimHigher      StatementKind = "aim higher"
	SameAgain      StatementKind = "same again"
)

// The rest of a page.
const (
	Caution   StatementKind = "caution"    // About: what may happen
	Followed  StatementKind = "followed"   // About: the measure, Count of Of, Since of OfSince; Others: the outcome
	BestPlace StatementKind = "best place" // To inches out; Diamond; Yes: known; Way 1: between the places tried; About: "further in" or "further out" than all of them
	CardCount StatementKind = "card"       // as NoCause
	Check     StatementKind = "check"      // About: what
	TellApart StatementKind = "tell apart" // About: what is to be noted; Others: the two causes it tells apart
	WordsOnly StatementKind = "as told"    // About: words that were kept without their facts
)

// Where the first setup on a table comes from.
const (
	StartStandard StatementKind = "start standard"
	StartHere     StatementKind = "start here" // the wing ball Count of Of
	StartFrom     StatementKind = "start from" // About: the table; Yes: in proportion, From inches out there To here, Diamond there where they are as many here; Way 1: tighter here
)

// Proposal is what is said of a proposed change: why, what to look for, and the
// line of safety, each of which may be the zero Statement.
type Proposal struct {
	Reason  Statement `json:"reason,omitzero"`
	Expect  Statement `json:"expect,omitzero"`
	Caution Statement `json:"caution,omitzero"`
}

// KeptWords is a statement of which only the words are known.
func KeptWords(words string) Statement { return Statement{Kind: WordsOnly, About: words} }

// Text writes the statement for a reader: whole sentences, or a phrase for the
// kinds that are only part of one. Of the zero Statement it makes nothing.
func (s Statement) Text(r Reader) string {
	switch s.Kind {
	case NothingYet, CoachChose, DoChange, NoRoomLeft, SetupWorks, NothingElse, NoCause, TooEarly, CheckRack, NotEnough:
		return s.answer(r)
	case Together, HurtLast, WasBetter, Because, Weighed, Sign, AllTogether, KeptSetup, MeasuredSpeed:
		return s.reason(r)
	case Finding, SoftFinding, UnaimedFinding:
		return s.finding() + "."
	case ExpectBefore, ExpectOf, ExpectRate, ExpectSteadier, AimHigher, SameAgain:
		return s.expectation(r)
	case Caution:
		return s.caution(r)
	case Followed:
		return s.followed()
	case BestPlace:
		return s.bestPlace(r)
	case CardCount:
		return r.choose("Your break on this table: ", "The student’s break on this table: ", "The student’s break on this table: ") + s.wingAndWindow() + "."
	case Check:
		return checkWords[s.About]
	case TellApart:
		return s.tellApart()
	case WordsOnly:
		return s.About
	case StartStandard, StartHere, StartFrom:
		return s.start(r)
	}
	return ""
}

// wingAndWindow are the two plain counts.
func (s Statement) wingAndWindow() string {
	if s.Of == 0 {
		return "the wing ball not watched, the cue ball in the window in " + InLetters(s.Since, s.OfSince)
	}
	return "the wing ball in " + InLetters(s.Count, s.Of) + ", the cue ball in the window in " + InLetters(s.Since, s.OfSince)
}
