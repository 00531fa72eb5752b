package advice

import (
	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/response"
	"breakwright/internal/table"
)

// The rules are the coach's language: a pattern, one change, a reason. Which
// change is told is weighed by package belief over everything that was seen, for
// every single change within the limits; the patterns speak where it finds none,
// and never against it.

// What a change must promise before it is told (choices of this program; their
// effect is in internal/rehearsal/REHEARSAL.md).
const (
	// certainHelp is the chance that a change helps, and mostHarm the chance that it
	// harms, where the club has not set others: see weighingRule.
	certainHelp = 0.8
	mostHarm    = 0.12
	// surelyCause is how likely a part must be amiss for its change to be told with
	// knownCauseDoubt times as much doubt whether it helps.
	surelyCause     = 0.7
	knownCauseDoubt = 2
	// certainTurn is asked of a change that turns the last one back, so that a
	// student is not sent to and fro.
	certainTurn = 0.92
	// worthTelling is the least expected gain in worth, a break.
	worthTelling = 0.07
	// clearGain is the same where most likely nothing is amiss: the setup is then weighed by
	// the model alone.
	clearGain = 0.15
	// looseRackFirst is how likely a loose rack must be before it is checked
	// ahead of any change, looseRackAsLikely where it is as likely as what the
	// change would answer.
	looseRackFirst    = 0.4
	looseRackAsLikely = 0.25
	// highestTip is how far above centre a tip is ever raised, as it is believed to
	// strike, and highestInstructedTip as it is told: a high tip under a raised cue makes
	// balls fly (common practice, no source).
	highestTip           = 0.1
	highestInstructedTip = 0.3
	// likelyNothing is from when on most likely nothing is amiss.
	likelyNothing = 0.5
)

// believe weighs everything that was seen under every setup of the pool.
func (l *analysis) believe() {
	if !l.asked.on {
		return
	}
	hands, known := belief.NewStudent(rackOf(l.currentSetup()), l.tablesPlay)
	if !known {
		return
	}
	for _, r := range l.records {
		breaks := make([]drill.Break, 0, r.tally.breaks)
		for _, set := range r.played {
			breaks = append(breaks, leftFrameBreaks(set, l.mirror)...)
		}
		hands.Observe(l.kind, r.setup, breaks)
	}
	l.hands = hands
}

// rackOf names the rack of a setup as the response model has it.
func rackOf(s drill.Setup) response.Rack { return response.Rack{Game: s.Game, Spot: s.Spot} }

// leftFrameBreaks returns the breaks of a set as from the left.
func leftFrameBreaks(set drill.Set, mirror bool) []drill.Break {
	if !mirror {
		return set.Breaks
	}
	turned := make([]drill.Break, len(set.Breaks))
	for i, b := range set.Breaks {
		turned[i] = b.Mirror()
	}
	return turned
}

// applyBelief tells the best change that is sure enough, or asks for the rack to
// be checked where that explains as much.
func (l *analysis) applyBelief(d *decision) {
	if l.hands == nil || l.currentTally().breaks < l.asked.breaks {
		return
	}
	changes := l.weighSingleChanges()
	d.weighed, d.causes = changes, l.weighCauses(changes)
	best, found := l.bestChange(d, changes)
	loose := d.shareOf(belief.LooseRack)
	switch {
	case found && isRackFirst(loose, d.shareOf(causeOf[best.variable])):
		d.checkRack = true
	case d.change != nil:
	case found:
		d.choose(best, ruleForChange(best.proposedChange, l.currentSetup()))
	case loose >= looseRackFirst:
		d.checkRack = true
	case l.isSurelySoft():
		if c := l.raiseSpeed(1, reasonPlain); c.to != l.currentSetup() && !l.isExcluded(c) {
			d.choose(weighedChange{proposedChange: c}, RuleWeak)
		}
	}
}

// isRackFirst reports whether a loose rack that is so likely is looked at before a change
// of a part whose cause is so likely.
func isRackFirst(loose, answered float64) bool {
	return loose >= min(looseRackFirst, max(looseRackAsLikely, answered))
}

// choose takes a weighed change for the answer, told in the language of a rule.
func (d *decision) choose(c weighedChange, name RuleName) {
	d.change, d.helps, d.cause = &c.proposedChange, c.effect.Help, causeOf[c.variable]
	d.chosenRule, d.chosenObservation = ruleNamed(name), d.observations[name]
}

// isSurelySoft reports whether a stroke of which no speed was told or measured is
// surely much softer than an ordinary break. It is then asked for a mile an hour more
// than that.
func (l *analysis) isSurelySoft() bool {
	return l.speedUnknown && l.hands.ShareOf(belief.Speed) >= surelySoft && l.hands.MeanSpeedOffset() <= -muchSofter
}

const (
	surelySoft           = 0.9
	muchSofter table.Mph = 4
)

// weighedChange is a change with what it would bring.
type weighedChange struct {
	proposedChange
	effect belief.Effect
}

// weighSingleChanges returns every single change with what it would bring.
func (l *analysis) weighSingleChanges() []weighedChange {
	list := l.listSingleChanges()
	setups := make([]drill.Setup, len(list))
	for i, c := range list {
		setups[i] = c.to
	}
	weighed := make([]weighedChange, len(list))
	for i, e := range l.hands.CompareAll(l.weights, l.asked.limits(), l.kind, l.currentSetup(), setups) {
		weighed[i] = weighedChange{list[i], e}
	}
	return weighed
}

// bestChange returns the change of most expected gain among those that are sure
// enough; what is likelier to be the cause, and what is easier to do, goes first
// among equals. A place that is likelier wrong than the hit is moved before the hit is.
func (l *analysis) bestChange(d *decision, changes []weighedChange) (best weighedChange, found bool) {
	var bestPlace weighedChange
	var most, mostOfPlaces float64
	for _, c := range changes {
		if l.isExcluded(c.proposedChange) || !l.isSureEnough(d, c) {
			continue
		}
		score := c.effect.Gain * (easeOf[c.variable] + causeBonus*d.shareOf(causeOf[c.variable]))
		if score > most {
			best, most, found = c, score, true
		}
		if c.variable == VaryPlace && score > mostOfPlaces {
			bestPlace, mostOfPlaces = c, score
		}
	}
	if best.variable == VaryContact && mostOfPlaces > 0 && d.shareOf(belief.Place) >= d.shareOf(belief.Contact) {
		best = bestPlace
	}
	return best, found
}

// bestSize returns a pattern's plain answer with the size of most expected gain, among those
// of its part and way that may well help and hardly harm, and false where there is none.
func (l *analysis) bestSize(d *decision, c proposedChange) (best weighedChange, found bool) {
	moves := func(to drill.Setup) float64 { return partDifference(c.variable, l.currentSetup(), to) }
	for _, w := range d.weighed {
		isSameWay := w.variable == c.variable && moves(w.to)*moves(c.to) > 0
		if isSameWay && c.reason == reasonPlain && w.effect.Gain > best.effect.Gain && l.mayHelpSafely(w) {
			best, found = w, true
		}
	}
	return best, found
}

// mayHelpSafely reports whether a change helps as surely as one is asked to whose part is
// known to be amiss, hardly harms, and may be told.
func (l *analysis) mayHelpSafely(c weighedChange) bool {
	return c.effect.Help >= l.asked.knownCause && c.effect.Harm <= l.asked.harm &&
		!l.isExcluded(c.proposedChange) && l.keepsThreePoints(c.proposedChange)
}

// isSureEnough reports whether a change may be told for what it promises.
func (l *analysis) isSureEnough(d *decision, c weighedChange) bool {
	need := l.asked.help
	switch {
	case l.reversesLastChange(c.proposedChange):
		need = l.asked.turn
	case d.shareOf(causeOf[c.variable]) >= surelyCause:
		need = l.asked.knownCause
	}
	return c.effect.Help >= need && c.effect.Harm <= l.asked.harm && l.isGainClear(c) &&
		l.answersLikelyCause(d, c.proposedChange) && l.keepsCueBall(c.proposedChange) && l.keepsThreePoints(c.proposedChange)
}

// keepsCueBall reports whether a change loses the cue ball less often, of a student who
// loses it too often to think of anything else.
func (l *analysis) keepsCueBall(c proposedChange) bool {
	if !l.losesCueBall() {
		return true
	}
	now, then := l.hands.Expect(l.kind, l.currentSetup()), l.hands.Expect(l.kind, c.to)
	return then.Scratch+then.CueOff < 0.9*(now.Scratch+now.CueOff)
}

// mostPointsGivenUp is how much more often a break may fall short of three points after
// a change.
const mostPointsGivenUp = 0.03

// keepsThreePoints reports whether a change keeps the room's rule about as often as the
// present setup does.
func (l *analysis) keepsThreePoints(c proposedChange) bool {
	if !l.house.ThreePoints {
		return true
	}
	now, then := l.hands.Expect(l.kind, l.currentSetup()), l.hands.Expect(l.kind, c.to)
	return then.Short <= now.Short+mostPointsGivenUp
}

// answersLikelyCause reports whether a change is of a part that may well be amiss. What
// would help anybody a little, by the model, is no answer to what was seen. Place and
// contact both turn the wing ball's line and look alike, so either answers both, and what
// is told wrongly counts as amiss; softer answers a stroke that is too hard or not steady,
// harder one that is too soft.
func (l *analysis) answersLikelyCause(d *decision, c proposedChange) bool {
	share := 0.0
	switch c.variable {
	case VaryPlace, VaryContact:
		share = d.shareOf(belief.Place) + d.shareOf(belief.Contact)
	case VarySpeed:
		softer := partDifference(VarySpeed, l.currentSetup(), c.to) < 0
		share = l.hands.ShareOfSpeed(softer)
		if softer {
			share += l.hands.ShareOf(belief.Unsteady)
		}
	default:
		share = l.hands.ShareOf(causeOf[c.variable])
	}
	return share >= likelyCause || l.hands.ShareOf(belief.Nothing) > likelyNothing
}

// likelyCause is how likely a part must be amiss before it is changed.
const likelyCause = 0.3

// isGainClear reports whether a gain is worth telling: more of it where most likely
// nothing is amiss and the breaks do not show that the part is oddly told, but for the
// place, whose misses show when it is told wrongly.
func (l *analysis) isGainClear(c weighedChange) bool {
	least := worthTelling
	if c.variable != VaryPlace && l.hands.ShareOf(belief.Nothing) > likelyNothing && !l.showsOddSetup(c.proposedChange) {
		least = clearGain
	}
	return c.effect.Gain >= least
}

// easeOf prefers, among changes that promise as much, what a student can do more
// surely: the place can be measured, the tip and the hit only felt (common
// practice, no source).
var easeOf = map[Variable]float64{
	VaryPlace: 1, VarySpin: 1, VaryTip: 0.9, VaryContact: 0.75, VarySpeed: 0.85,
}

// causeBonus is how much a change of the part that is amiss is preferred to one
// that makes up for it.
const causeBonus = 0.6

// causeOf names the cause that a change of a part answers.
var causeOf = map[Variable]belief.Cause{
	VaryPlace: belief.Place, VaryContact: belief.Contact, VaryTip: belief.Tip,
	VarySpin: belief.Spin, VarySpeed: belief.Speed,
}
