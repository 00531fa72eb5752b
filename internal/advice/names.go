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
