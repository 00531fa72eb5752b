package advice

// RuleName names a rule.
type RuleName string

// The rules, most pressing first; the numbers are those of the coaches' list.
const (
	RuleDanger      RuleName = "balls-off-table"     // 1
	RuleLimits      RuleName = "outside-limits"      // beyond what is taught
	RuleFollowUp    RuleName = "follow-up"           // the change before hurt: go back
	RuleWeighing    RuleName = "weighing"            // everything seen, together
	RuleWeak        RuleName = "weak-break"          // 2
	RuleSideScratch RuleName = "side-scratch"        // 3
	RuleThrownWide  RuleName = "cue-ball-wide"       // 3b
	RuleHeadScratch RuleName = "head-corner-scratch" // 4
	RuleFootScratch RuleName = "foot-corner-scratch" // 5
	RuleForward     RuleName = "cue-ball-forward"    // 6
	RuleBackTooFar  RuleName = "cue-ball-back"       // 7
	RuleMissBalance RuleName = "wing-miss-balance"   // 8
	RuleWingUnseen  RuleName = "wing-misses-unseen"  // 8b
	RuleUnsteady    RuleName = "unsteady"            // 9
	RuleNoShot      RuleName = "no-shot"             // 10
	RuleHeadBall    RuleName = "head-ball-path"      // 11
	RuleProgress    RuleName = "progress"            // 12
	RuleTooEarly    RuleName = "too-early"           // 13
	RuleNewTable    RuleName = "new-table"           // 14
	RuleDry         RuleName = "dry-break"           // 15
	// The two facts shown beside every advice. They never ask for a change.
	FactWing   RuleName = "wing-ball"
	FactWindow RuleName = "cue-ball-window"
	// The same where the drill asks for what a break leaves.
	FactShot   RuleName = "open-shot"
	FactRanOut RuleName = "ran-out"
)

// RulesVersion is the version of the rules as they come.
const RulesVersion = "1"

// Rules are the club's numbers. The zero Rules are the rules as they come.
//
// The numbers they come with are set for a whole training and for all
// rules together: a student with nothing wrong is looked at after every set, by
// every rule, and should be told to change something within three sets less
// than once in twenty. Six looks double the false alarms of one, so lines stand
// away from what an ordinary good breaker does (a scratch in five to ten of a
// hundred, the wing ball in 35 to 65, misses about balanced) and certainties
// are high; the virtual students of the tests hold the promise.
type Rules struct {
	// Version is stored with every prescription.
	Version string `json:"version"`
	// Numbers by rule; a rule that is not in it has the numbers it comes with.
	Numbers map[RuleName]Numbers `json:"numbers"`
}

// Numbers are one rule's numbers, as the Rules page shows and edits them.
type Numbers struct {
	On bool `json:"on"`
	// Line is the rate beyond which the pattern is worth a change.
	Line float64 `json:"line"`
	// Certainty is how sure the rate must be beyond the line to open a case:
	// to change a part of the setup that was not changed last.
	Certainty float64 `json:"certainty"`
	// Onward is how sure it must be to go on in the direction of the last
	// change. It is lower, because the case has been made already.
	Onward float64 `json:"onward"`
	// Step is the size of the change, or what a part of a break is worth, in the unit
	// of Rule.StepUnit.
	Step float64 `json:"step"`
	// MinBreaks is the fewest breaks of a stint on which the rule speaks.
	MinBreaks int `json:"min_breaks"`
}

// UsualPractice is the source of a rule that coaches teach and nobody wrote down.
const UsualPractice = "common practice, no source"

// Rule is a rule as a page shows it.
type Rule struct {
	Name RuleName
	// Number is its row in the coaches' list, such as "8b"; "" for a rule
	// that has none.
	Number string
	// Title, Pattern and Answer are its words; LineMeans says what Line counts;
	// Source says where the rule comes from, and Support what else speaks for it, "" for
	// nothing.
	Title, Pattern, Answer, LineMeans, Source, Support string
	// StepUnit is the unit of Numbers.Step, "" when it has none; StepBound says how far a
	// step is meant: "at most", or "" where it is just that.
	StepUnit, StepBound string
	// Numbers are the ones it comes with.
	Numbers Numbers
}

// Catalogue lists the rules, in the order in which they are asked; those that
// look for no fault come last.
func Catalogue() []Rule {
	list := make([]Rule, 0, len(patternRules)+5)
	for _, r := range patternRules {
		list = append(list, r.Rule)
		switch r.Name { // where they are asked
		case RuleDanger:
			list = append(list, followUpRule)
		case RuleLimits:
			list = append(list, weighingRule)
		}
	}
	return append(list, progressRule, tooEarlyRule, newTableRule)
}

// EverySetting lists all that has numbers a club may set: the rules, and what a break is
// worth. It is one list for all who ask, and not to be changed.
func EverySetting() []Rule { return everySetting }

var everySetting = append(Catalogue(), worthParts...)

// DefaultRules returns the numbers as they come, one entry a rule.
func DefaultRules() Rules {
	all := Rules{Version: RulesVersion, Numbers: map[RuleName]Numbers{}}
	for _, r := range EverySetting() {
		all.Numbers[r.Name] = r.Numbers
	}
	return all
}

// numbersOf returns a rule's numbers.
func (r Rules) numbersOf(known Rule) Numbers {
	if n, set := r.Numbers[known.Name]; set {
		return n
	}
	return known.Numbers
}

// versionOrDefault names the rules that spoke.
func (r Rules) versionOrDefault() string {
	if r.Version == "" {
		return RulesVersion
	}
	return r.Version
}

// patternRule is a rule at work: its data, what it looks at, and what it would change.
type patternRule struct {
	Rule
	// observe counts the pattern.
	observe func(*analysis, Numbers) observation
	// proposeChanges lists the changes that would answer the pattern, the best first.
	// It is asked only when the pattern is sure enough. nil for a rule that
	// only reports.
	proposeChanges func(*analysis, Numbers, observation) []proposedChange
	// mayWait says that having no answer yet is no reason to call the coach.
	mayWait bool
}

// patternRules are in the order in which they are asked. The first that is sure
// enough and has something left to change is the one that speaks.
var patternRules = []patternRule{
	dangerRule,
	limitsRule,
	weakBreakRule,
	sideScratchRule,
	thrownWideRule,
	headScratchRule,
	footScratchRule,
	forwardRule,
	backTooFarRule,
	missBalanceRule,
	wingUnseenRule,
	unsteadyRule,
	noShotRule,
	headBallRule,
	dryBreakRule,
}
