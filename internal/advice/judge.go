package advice

import "breakwright/internal/drill"

// Judge says what one student's history asks for. The sets are the student's
// own, oldest first, possibly on several tables; the latest set decides which
// table and side the advice is for. A history without breaks gives the zero
// Next setup and the verdict More.
func Judge(history []drill.Set, b Brief) Advice {
	stints := drill.Stints(history)
	needed := drill.UsualBreaks
	if len(stints) == 0 {
		return Advice{Verdict: More, BreaksNeeded: &needed, Rules: RulesVersion}
	}
	now := stints[len(stints)-1]
	return Advice{
		Student: now.Sets[0].Student, Table: now.Table,
		Stint:    Summary{Sets: len(now.Sets), Breaks: now.Breaks()},
		Findings: []Finding{},
		Verdict:  More, BreaksNeeded: &needed,
		Next: now.Setup, Rules: RulesVersion,
	}
}
