package advice

// Name names a rule.
type Name string

// The rules, most pressing first; the numbers are those of the coaches' list.
const (
	RuleDanger      Name = "balls-off-table"     // 1
	RuleWeak        Name = "weak-break"          // 2
	RuleSideScratch Name = "side-scratch"        // 3
	RuleHeadScratch Name = "head-corner-scratch" // 4
	RuleFootScratch Name = "foot-corner-scratch" // 5
	RuleForward     Name = "cue-ball-forward"    // 6
	RuleBackTooFar  Name = "cue-ball-back"       // 7
	RuleMissBalance Name = "wing-miss-balance"   // 8
	RuleWingUnseen  Name = "wing-misses-unseen"  // 8b
	RuleUnsteady    Name = "unsteady"            // 9
	RuleNoShot      Name = "no-shot"             // 10
	RuleHeadBall    Name = "head-ball-path"      // 11
	RuleProgress    Name = "progress"            // 12
	RuleTooEarly    Name = "too-early"           // 13
	RuleNewTable    Name = "new-table"           // 14
	RuleDry         Name = "dry-break"           // 15
	RuleFollowUp    Name = "follow-up"           // the change before hurt: go back
)

// Rules are the club's numbers. The zero Rules are the rules as they come.
type Rules struct {
	// Version is stored with every prescription.
	Version string           `json:"version"`
	Numbers map[Name]Numbers `json:"numbers"`
}

// Numbers are one rule's numbers, as the Rules page shows and edits them.
type Numbers struct {
	On bool `json:"on"`
	// Line is the rate beyond which the pattern is worth a change.
	Line float64 `json:"line"`
	// Certainty is how sure the rate must be beyond the line.
	Certainty float64 `json:"certainty"`
	// Step is the size of the change, in the unit of the rule's variable.
	Step float64 `json:"step"`
	// MinBreaks is the fewest breaks of a stint on which the rule speaks.
	MinBreaks int `json:"min_breaks"`
}

// Rule is a rule as a page shows it.
type Rule struct {
	Name Name
	// Number is its row in the coaches' list: "8b".
	Number string
	// Title, Pattern and Answer are its words; Source says where it comes from.
	Title, Pattern, Answer, Source string
	// StepUnit is the unit of Numbers.Step, "" when it has none.
	StepUnit string
	// Numbers are the ones it comes with.
	Numbers Numbers
}

// RulesVersion is the version of the rules as they come.
const RulesVersion = "1"

// DefaultRules gives the numbers as they come.
func DefaultRules() Rules { return Rules{Version: RulesVersion, Numbers: map[Name]Numbers{}} }

// Catalogue lists the rules, most pressing first.
func Catalogue() []Rule { return nil }
