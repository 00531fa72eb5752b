package advice

import "strings"

// followUp says how the latest change turned out; nil before the first.
func (w words) followUp() *FollowUp {
	m, any := w.lastMove()
	if !any {
		return nil
	}
	how, effect := m.outcome(w.undoCertainty())
	on := measure(m.vary)
	if how == Hurt {
		on = w.hurtMeasure(m)
		effect = m.effect(on)
	}
	f := &FollowUp{
		Variable: m.vary, From: w.value(m.vary, m.from.setup), To: w.value(m.vary, m.to.setup),
		Measure:     on,
		CountBefore: m.from.seen.count(on), OfBefore: m.from.seen.breaks,
		CountAfter: m.to.seen.count(on), OfAfter: m.to.seen.breaks,
		HelpedP: effect.Helped, NoDifferenceP: effect.NoDifference, HurtP: effect.Hurt,
		Outcome: how,
	}
	counts := sentence(on) + ": " + of(f.CountBefore, f.OfBefore) + " before the change, " +
		of(f.CountAfter, f.OfAfter) + " since. "
	f.Says = counts + outcomeWords(f)
	return f
}

func outcomeWords(f *FollowUp) string {
	switch f.Outcome {
	case Helped:
		return "It helped, as far as these breaks can tell."
	case Hurt:
		return "It got worse."
	case NoDifference:
		return "No real difference."
	}
	if f.OfAfter < fewest {
		return "Too early to tell."
	}
	lean := "Not enough to tell: luck alone can do that."
	if f.CountBefore == 0 && f.CountAfter == 0 {
		return lean
	}
	return strings.TrimSpace(lean)
}

// says is the answer in one or two sentences.
func (w words) says(v Verdict) string {
	switch {
	case w.d.instead != nil:
		return "Your coach chose the next setup."
	case w.d.change != nil:
		c := *w.d.change
		return sentence(w.doing(c)) + "."
	case w.d.stuck != nil:
		return "Keep the setup for now. " + w.d.stuck.Title + ": what the rules know to change has no room left, so your coach should look."
	case w.d.good:
		return "Leave the setup alone: it works. Make it harder."
	case w.d.level:
		return "Leave the setup alone. Nothing points to a change."
	}
	return w.tooEarly()
}

// tooEarly says how many more breaks, and why not now.
func (w words) tooEarly() string {
	t := w.seen()
	if w.d.short {
		return "A target is not met, and no single cause shows: the wing ball in " + of(t.wingMade, t.breaks) +
			", the cue ball in the window in " + of(t.cue.inWindow, t.breaks) +
			". The same setup again; your coach should look."
	}
	again := "The same setup again: about " + count(w.d.needed) + " more breaks will likely settle it."
	if !w.d.likely {
		again = "The same setup again. It is close, so it may take more than " + count(w.d.needed) + " breaks to tell."
	}
	if t.breaks < fewest {
		return "Too early to tell: " + count(t.breaks) + " breaks so far. " + again
	}
	return "Not enough to tell yet: the wing ball in " + of(t.wingMade, t.breaks) +
		", the cue ball in the window in " + of(t.cue.inWindow, t.breaks) + ". " + again
}

// progress is what is asked for when the setup stays; nil when a coach has to
// look first.
func (w words) progress() *Prescription {
	if w.d.stuck != nil {
		return nil
	}
	t := w.seen()
	p := &Prescription{Rule: RuleProgress, Variable: VaryNone}
	counts := "The wing ball fell in " + of(t.wingMade, t.breaks) + " and the cue ball stopped in the window in " +
		of(t.cue.inWindow, t.breaks) + "."
	p.Reason = "Leave the setup alone. " + counts
	if w.d.good {
		p.Expect = "Make it harder: a higher target, another table, tighter pockets, a shuffled rack, or the other side."
	} else {
		p.Expect = "Look for the same again; practise it, and raise the target when it holds."
	}
	return p
}

// ask lists what to record or to check in the next set.
func (w words) ask() []string {
	var ask []string
	t := w.seen()
	if missed := t.breaks - t.wingMade; missed >= 3 && 2*t.misses.unseen > missed {
		ask = append(ask, "When the wing ball stays up, record what it met first: side rail, foot rail, another ball, or the jaws.")
	}
	if w.pathMatters() && t.cue.lostFoot >= 2 {
		ask = append(ask, "Watch how the cue ball comes to the foot end: on through the rack, or back off the head rail. More draw answers one and makes the other worse.")
	}
	if s := w.d.sights[RuleNoShot]; s.certainty >= 0.8 && len(t.slots) == 0 {
		ask = append(ask, "Record where the low balls stop, so that the rack can be planned.")
	}
	if s := w.d.sights[RuleDry]; s.certainty >= w.rules.of(dry.Rule).Certainty && !w.missesOneSided() {
		ask = append(ask, "Check the rack is tight, the head ball on its spot, balls and cloth clean.")
	}
	if s := w.d.sights[RuleWeak]; s.certainty >= 0.8 {
		ask = append(ask, "Check that the rack is tight before each break.")
	}
	if w.balanced() {
		ask = append(ask, "The misses are balanced: the place is right. Work on a square hit.")
	}
	return ask
}

// balanced says whether enough misses are known, on both sides alike, and the
// wing ball is still likely under its target.
func (w words) balanced() bool {
	t, m := w.seen(), w.telling()
	even := min(m.ProbLong(), m.ProbShort()) >= 0.25
	return w.d.change == nil && m.Total() >= 10 && even &&
		below(t.wingMade, t.breaks, w.targets.Wing) >= 0.8
}

func (w words) missesOneSided() bool {
	m := w.telling()
	return oneWay(m.Long, m.Total()) || oneWay(m.Short, m.Total())
}
