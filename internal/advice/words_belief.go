package advice

import (
	"strconv"
	"strings"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/response"
)

// mostReasons is how many counts a reason names at most.
const mostReasons = 2

// weakestReason is the weight, in decibans, below which a count is no reason.
const weakestReason = 1

// writeBeliefReason names the counts that weigh most for the cause against all
// others, and what else it could be.
func (w adviceWriter) writeBeliefReason(c proposedChange) string {
	said := w.listReasons(w.reasonCause())
	if len(said) == 0 {
		finding := describeFinding(w.decision.chosenRule.Name, w.decision.chosenObservation, w.analysis)
		said = []string{lowerFirst(strings.TrimSuffix(finding, "."))}
	}
	text := capitalizeFirst(strings.Join(said, ", and ")) + ": " + w.describeCause(c) + "."
	if rivals := w.listRivals(); rivals != "" {
		text += " It could also be " + rivals + "."
	}
	return text
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

// listReasons words what was seen under the present setup, the weightiest first.
func (w adviceWriter) listReasons(cause belief.Cause) []string {
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
	var said []string
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
		if words := w.countSight(best); words != "" {
			said = append(said, words)
		}
	}
	return said
}

// sightOf words an outcome as it is counted; outcomes that a coach would not
// tell apart share their words.
func sightOf(r belief.Reason) string {
	pick := func(words ...string) string {
		if r.Outcome < 0 || r.Outcome >= len(words) {
			return ""
		}
		return words[r.Outcome]
	}
	switch r.Fact {
	case response.Wing:
		return pick("the wing ball fell", "met the side rail first", "met the foot rail first", "were kissed by another ball", "rattled in the jaws")
	case response.Cue:
		if path, stopped := response.PathOf(r.Outcome); stopped {
			return map[drill.CuePath]string{
				drill.PathBack: "the cue ball came straight back", drill.PathHeadRail: "the cue ball came off the head rail",
				drill.PathForward: "the cue ball ran on into the rack end", drill.PathHit: "another ball moved the cue ball",
			}[path]
		}
		return pick("the cue ball scratched in a head corner", "the cue ball scratched in a head corner",
			"the cue ball scratched in the near side pocket", "the cue ball scratched in the far side pocket",
			"the cue ball scratched in a foot corner", "the cue ball scratched in a foot corner", "the cue ball left the table")
	case response.OthersDown:
		return pick("no other ball fell", "another ball fell", "another ball fell")
	case response.HeadBall:
		return pick("the head ball fell in the far side pocket", "", "the head ball came back up the table", "the head ball came back up the table",
			"the head ball stayed at the foot end", "the head ball stayed at the foot end")
	case response.Rails:
		return pick("fewer than six balls met a rail", "fewer than six balls met a rail", "six or more balls met a rail", "six or more balls met a rail")
	case response.PastString:
		return pick("at most one ball crossed the head string", "at most one ball crossed the head string", "",
			"three or more balls crossed the head string", "three or more balls crossed the head string")
	}
	return ""
}

// countSight counts the breaks of the present setup that show it, of those in
// which it could be seen; "" when none does.
func (w adviceWriter) countSight(sight string) string {
	shown, of := 0, 0
	aboutMisses := strings.HasPrefix(sight, "met ") || strings.HasPrefix(sight, "were ") || strings.HasPrefix(sight, "rattled ")
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
	switch {
	case shown == 0:
		return ""
	case aboutMisses:
		return countOfThings(shown, of, "misses that were watched") + " " + sight
	}
	return sight + " in " + countOfTotal(shown, of)
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

// factOfSight gives the fact that the words are of.
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

// describeCause says what the change answers.
func (w adviceWriter) describeCause(c proposedChange) string {
	up := partDifference(c.variable, w.currentSetup(), c.to) > 0
	if w.decision.cause != w.reasonCause() {
		switch w.reasonCause() {
		case belief.Contact:
			return "the head ball is met off the line told, and this makes up for it"
		case belief.Place:
			return "the wing ball's line is off, and this brings it back"
		}
	}
	switch c.variable {
	case VaryPlace:
		if up {
			return "the cue ball starts too near the middle"
		}
		return "the cue ball starts too far out"
	case VaryContact:
		if up {
			return "the head ball is met too far toward the break side"
		}
		return "the head ball is met too far toward the far side"
	case VaryTip:
		if up {
			return "the tip strikes too low"
		}
		return "the tip strikes too high"
	case VarySpin:
		return "side spin turns the cue ball: spin to nothing first"
	}
	if up {
		return "the break has too little speed to open the rack"
	}
	return "control before power"
}

// rivalShare is how likely another cause must still be to be named.
const rivalShare = 0.2

// listRivals words what else it could be.
func (w adviceWriter) listRivals() string {
	words := map[belief.Cause]string{
		belief.Place: "the place", belief.Contact: "the hit on the head ball", belief.Tip: "the height of the tip",
		belief.Spin: "side spin", belief.Speed: "the speed", belief.Unsteady: "a stroke that is not steady yet",
		belief.LooseRack: "the rack: check it before the next ten",
	}
	var named []string
	for _, share := range w.decision.causes {
		if share.Share >= rivalShare && words[share.Cause] != "" &&
			share.Cause != w.decision.cause && share.Cause != w.reasonCause() {
			named = append(named, words[share.Cause])
		}
	}
	return strings.Join(named, ", or ")
}

// writeBeliefExpectation says what to look for: the part of a break that the
// change should better most.
func (w adviceWriter) writeBeliefExpectation(c proposedChange) string {
	now := w.hands.Expect(w.kind, w.currentSetup())
	then := w.hands.Expect(w.kind, c.to)
	worth := belief.StandardWeights()
	best, text := 0.0, ""
	consider := func(weight, from, to float64, words string) {
		if gain := weight * (to - from); gain > best {
			best, text = gain, words
		}
	}
	consider(worth.Down, now.Down, then.Down, "a ball down and no scratch in "+inNextTen(then.Down))
	consider(worth.Wing, now.Wing, then.Wing, "the wing ball in "+inNextTen(then.Wing))
	consider(worth.Scratch, now.Scratch, then.Scratch, "at most "+fewOfTen(then.Scratch)+" scratches in the next ten")
	consider(worth.Weak, now.Weak, then.Weak, "four balls to a rail, or one pocketed, in "+inNextTen(1-then.Weak))
	consider(worth.Middle, now.Middle, then.Middle, "the cue ball between the head string and the centre in "+inNextTen(then.Middle))
	if text == "" {
		text = "the wing ball in " + inNextTen(then.Wing)
	}
	return "Look for " + text + "."
}

// fewOfTen rounds a rate up to whole breaks of ten, with one to spare for luck.
func fewOfTen(rate float64) string { return strconv.Itoa(int(rate*10+0.5) + 1) }

// rackMayBeLoose reports whether the rack should be looked at before the next set.
func (w adviceWriter) rackMayBeLoose() bool {
	if w.decision.checkRack {
		return true
	}
	return w.hands != nil && w.currentTally().breaks >= fewestBreaks && w.hands.ShareOf(belief.LooseRack) >= rivalShare
}
