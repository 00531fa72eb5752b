package advice

import (
	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/say"
)

// mostReasons is how many counts a reason names at most.
const mostReasons = 2

// weakestReason is the weight, in decibans, below which a count is no reason.
const weakestReason = 1

// beliefReason names the counts that weigh most for the cause against all
// others, and what else it could be.
func (w adviceWriter) beliefReason(c proposedChange) say.Statement {
	said := say.Statement{Kind: say.Weighed, Parts: w.listReasons(w.reasonCause()), About: w.causeName(c), Others: w.listRivals()}
	if len(said.Parts) == 0 {
		said.Parts = []say.Statement{w.chosenFinding()}
	}
	return said
}

// reasonCause is the cause whose evidence is told: the likeliest that is one.
func (w adviceWriter) reasonCause() belief.Cause {
	for _, share := range w.decision.causes {
		if share.Cause != belief.Nothing {
			return share.Cause
		}
	}
	return w.decision.cause
}

// listReasons counts what was seen under the present setup, the weightiest first.
func (w adviceWriter) listReasons(cause belief.Cause) []say.Statement {
	weights := map[string]float64{}
	var order []string
	for _, r := range w.hands.Reasons(cause) {
		sight := sightOf(r)
		if sight == "" {
			continue
		}
		if _, known := weights[sight]; !known {
			order = append(order, sight)
		}
		weights[sight] += r.Decibans
	}
	var said []say.Statement
	for len(said) < mostReasons {
		best := ""
		for _, sight := range order {
			if weights[sight] >= weakestReason && (best == "" || weights[sight] > weights[best]) {
				best = sight
			}
		}
		if best == "" {
			return said
		}
		weights[best] = 0
		if seen := w.countSight(best); seen.Count > 0 {
			said = append(said, seen)
		}
	}
	return said
}

// sightOf names an outcome as package say words it; outcomes that a coach would
// not tell apart share their name.
func sightOf(r belief.Reason) string {
	pick := func(names ...string) string {
		if r.Outcome < 0 || r.Outcome >= len(names) {
			return ""
		}
		return names[r.Outcome]
	}
	switch r.Fact {
	case response.Wing:
		return pick("wing fell", "wing side rail", "wing foot rail", "wing kissed", "wing jaws")
	case response.Cue:
		if path, stopped := response.PathOf(r.Outcome); stopped {
			return map[drill.CuePath]string{
				drill.PathBack: "cue back", drill.PathHeadRail: "cue head rail", drill.PathForward: "cue forward", drill.PathHit: "cue hit",
			}[path]
		}
		return pick("cue head corner", "cue head corner", "cue near side", "cue far side", "cue foot corner", "cue foot corner", "cue off table")
	case response.OthersDown:
		return pick("none fell", "another fell", "another fell")
	case response.HeadBall:
		return pick("head ball far side", "", "head ball came back", "head ball came back", "head ball stayed", "head ball stayed")
	case response.Rails:
		return pick("few rails", "few rails", "many rails", "many rails")
	case response.PastString:
		return pick("few crossed", "few crossed", "", "many crossed", "many crossed")
	}
	return ""
}

// countSight counts the breaks of the present setup that show it, of those in
// which it could be seen.
func (w adviceWriter) countSight(sight string) say.Statement {
	shown, of := 0, 0
	aboutMisses := say.IsSightOfMisses(sight)
	var seen []response.Seen
	for _, set := range w.currentRecord().played {
		for _, b := range leftFrameBreaks(set, w.mirror) {
			seen = response.Observe(&b, w.currentSetup(), w.kind, seen[:0])
			has, could := showsSight(seen, sight, aboutMisses)
			if could {
				of++
			}
			if has {
				shown++
			}
		}
	}
	return say.Statement{Kind: say.Sight, About: sight, Count: shown, Of: of}
}

// showsSight reports whether what was seen of a break has the sight, and whether
// it could have had it.
func showsSight(seen []response.Seen, sight string, aboutMisses bool) (has, could bool) {
	for _, s := range seen {
		fact, outcome := response.FactAt(s.Index)
		switch {
		case fact != factOfSight(sight):
		case aboutMisses && (outcome == response.WingMade || outcome == response.WingElsewhere || outcome < 0):
		default:
			could = true
			has = has || sightOf(belief.Reason{Fact: fact, Outcome: outcome}) == sight
		}
	}
	return has, could
}

// factOfSight gives the fact that the sight is of.
func factOfSight(sight string) response.Fact {
	for _, f := range []response.Fact{response.Wing, response.OthersDown, response.HeadBall, response.Rails, response.PastString} {
		for outcome := range 6 {
			if sightOf(belief.Reason{Fact: f, Outcome: outcome}) == sight {
				return f
			}
		}
	}
	return response.Cue
}

// causeName names what the change answers.
func (w adviceWriter) causeName(c proposedChange) string {
	if w.decision.cause != w.reasonCause() {
		switch w.reasonCause() {
		case belief.Contact:
			return "contact made up for"
		case belief.Place:
			return "line brought back"
		}
	}
	way := "less"
	if partDifference(c.variable, w.currentSetup(), c.to) > 0 {
		way = "more"
	}
	switch c.variable {
	case VaryPlace, VaryContact, VaryTip, VarySpin:
		return string(c.variable) + " " + way
	}
	return "speed " + way
}

// rivalShare is how likely another cause must still be to be named.
const rivalShare = 0.2

// listRivals names what else it could be.
func (w adviceWriter) listRivals() []string {
	var named []string
	for _, share := range w.decision.causes {
		if share.Share >= rivalShare && say.NamesRival(string(share.Cause)) &&
			share.Cause != w.decision.cause && share.Cause != w.reasonCause() {
			named = append(named, string(share.Cause))
		}
	}
	return named
}

// beliefExpectation says what to look for: the part of a break that the change
// should better most.
func (w adviceWriter) beliefExpectation(c proposedChange) say.Statement {
	now := w.hands.Expect(w.kind, w.currentSetup())
	then := w.hands.Expect(w.kind, c.to)
	worth := belief.StandardWeights()
	best, look := 0.0, say.Statement{Kind: say.ExpectRate, About: "wing", Rate: then.Wing}
	consider := func(weight, from, to float64, about string) {
		if gain := weight * (to - from); gain > best {
			best, look.About, look.Rate = gain, about, to
		}
	}
	consider(worth.Down, now.Down, then.Down, "down")
	consider(worth.Wing, now.Wing, then.Wing, "wing")
	consider(worth.Scratch, now.Scratch, then.Scratch, "scratch")
	consider(worth.Weak, now.Weak, then.Weak, "weak")
	consider(worth.Middle, now.Middle, then.Middle, "middle")
	return look
}

// rackMayBeLoose reports whether the rack should be looked at before the next set.
func (w adviceWriter) rackMayBeLoose() bool {
	if w.decision.checkRack {
		return true
	}
	return w.hands != nil && w.currentTally().breaks >= fewestBreaks && w.hands.ShareOf(belief.LooseRack) >= rivalShare
}
