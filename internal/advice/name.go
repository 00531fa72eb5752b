package advice

// Name names a rule.
type Name string

// The rules, most pressing first; the numbers are those of the coaches' list.
const (
	RuleDanger      Name = "balls-off-table"     // 1
	RuleLimits      Name = "outside-limits"      // beyond what is taught
	RuleFollowUp    Name = "follow-up"           // the change before hurt: go back
	RuleWeak        Name = "weak-break"          // 2
	RuleSideScratch Name = "side-scratch"        // 3
	RuleThrownWide  Name = "cue-ball-wide"       // 3b
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
	// The two facts shown beside every advice. They never ask for a change.
	FactWing   Name = "wing-ball"
	FactWindow Name = "cue-ball-window"
)
