package breaklog

import (
	"strings"
	"time"

	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// readPlanCells returns the row's cells of the plan, which live as long as the row.
func (r *logReader) readPlanCells() (p planCells) {
	for _, cell := range p.columns() {
		*cell.text = r.cellText(cell.column)
	}
	return p
}

// clone returns cells that outlive their row.
func (p planCells) clone() planCells {
	for _, cell := range p.columns() {
		*cell.text = strings.Clone(*cell.text)
	}
	return p
}

// readPlan reads the plan of a set from its first row. asked is the speed that was
// asked for, nil when that is not known.
func (r *logReader) readPlan(t setConditions) (plan drill.SetPlan, asked *table.Mph) {
	asked = r.readAskedSpeed()
	setup := t.setup
	if asked != nil {
		setup.Speed = *asked
	}
	plan.Window = r.readWindow(t.kind)
	plan.Targets = r.readGoals()
	plan.House = r.readHouse()
	plan.Closed = r.readTime(colClosed)
	plan.Decisions = r.readDecisions(setup, t.kind)
	plan.Rules, plan.TablesPlay = r.readRules(), r.readTablesPlay()
	return plan, asked
}

func (r *logReader) readAskedSpeed() *table.Mph {
	switch r.cellText(colSpeedAsked) {
	case "":
		return nil
	case ownSpeed:
		return new(table.Mph(0))
	}
	v, given := r.readNumber(colSpeedAsked)
	if !given {
		return nil
	}
	if !(v > 0 && v <= float64(drill.FastestMeasured)) {
		r.rejectCell(colSpeedAsked, "a speed above 0 and up to "+drill.FastestMeasured.String()+" mph is accepted, or “own” when it was left to the student")
	}
	return new(table.Mph(v))
}

func (r *logReader) readWindow(k table.Kind) (w table.Window) {
	var corners []table.Place
	for part := range r.splitParts(colWindow) {
		corner, ok := parsePlace(part)
		if !ok {
			corners = nil
			break
		}
		corners = append(corners, corner)
	}
	switch {
	case len(corners) == 2:
		a, b := corners[0], corners[1]
		w = table.Window{Left: min(a.X, b.X), Right: max(a.X, b.X), Head: min(a.Y, b.Y), Foot: max(a.Y, b.Y)}
		if err := w.Check(k); err != nil {
			r.rejectCell(colWindow, err.Error())
		}
	case r.cellText(colWindow) != "":
		r.rejectCell(colWindow, "two opposite corners in inches such as -12.5,25;12.5,50 are accepted")
	}
	return w
}

func (r *logReader) readGoals() (t drill.Targets) {
	const accepted = "goals and their shares such as wing@0.5;window@0.6 are accepted; the goals are wing, window, shot, ran_out"
	for part := range r.splitParts(colGoals) {
		name, share, _ := strings.Cut(part, "@")
		v, why := parseDecimal(strings.TrimSpace(share))
		found := false
		for _, goal := range drill.TargetKinds() {
			if goal.Name == strings.TrimSpace(name) {
				*goal.Of(&t), found = v, true
			}
		}
		if !found || why != "" || !isShare(v) {
			r.rejectCell(colGoals, accepted)
			return drill.Targets{}
		}
	}
	return t
}

func isShare(v float64) bool { return v > 0 && v <= 1 }

func (r *logReader) readHouse() (h drill.HouseRules) {
	for part := range r.splitParts(colHouse) {
		name, reach, _ := strings.Cut(part, "@")
		v, why := parseDecimal(strings.TrimSpace(reach))
		switch {
		case part == threePoints:
			h.ThreePoints = true
		case strings.TrimSpace(name) == breakBox && why == "" && v > 0:
			h.BreakBox = table.Inches(v)
		default:
			r.rejectCell(colHouse, "the room's rules such as box@8;three-points are accepted: how far to each side the break box reaches, in inches, and the three-point rule")
			return drill.HouseRules{}
		}
	}
	return h
}

// readDecisions reads what was decided on a set of this setup.
func (r *logReader) readDecisions(setup drill.Setup, k table.Kind) (list []drill.PlanDecision) {
	for part := range r.splitParts(colDecision) {
		d, ok := parseDecision(part, setup)
		if !ok || d.Setup.CheckPossible(k) != nil {
			r.rejectCell(colDecision, "decisions such as “declined weak-break”, “changed cue-ball-wide contact=0.2” or “own speed=16”, joined by ;, are accepted: approved, changed or declined and what had asked for the change, or own, or earlier for one that was made on a set before and comes first; then what it made another, by its column")
			return nil
		}
		list = append(list, d)
	}
	return list
}

// decisionAnswers are the answers, with whether a rule is named that had asked for the change.
var decisionAnswers = map[string]bool{"approved": true, "changed": true, "declined": true, "own": false, drill.EarlierDecision: false}

func parseDecision(text string, of drill.Setup) (d drill.PlanDecision, ok bool) {
	words := strings.Fields(text)
	if len(words) == 0 {
		return d, false
	}
	answersRule, known := decisionAnswers[words[0]]
	if !known {
		return d, false
	}
	d.Answer, d.Setup = strings.Clone(words[0]), of
	words = words[1:]
	if answersRule {
		if len(words) == 0 || !isRuleName(words[0]) {
			return d, false
		}
		d.Rule, words = strings.Clone(words[0]), words[1:]
	}
	for _, word := range words {
		if !readDecidedPart(&d.Setup, word) {
			return d, false
		}
	}
	return d, true
}

// readDecidedPart reads a part of a setup such as cue_x=-18.
func readDecidedPart(s *drill.Setup, word string) bool {
	name, is, _ := strings.Cut(word, "=")
	for _, part := range decidedParts {
		if part.column.String() == name {
			return part.read(s, is)
		}
	}
	return false
}

// isRuleName reports whether a word can name what asks for a change.
func isRuleName(word string) bool {
	return word != "" && len(word) <= 60 && strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}

func formatTime(at time.Time) string { return at.UTC().Format(time.RFC3339Nano) }
