package whatif

import (
	"fmt"
	"math"
	"strings"

	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/fit"
	"breakwright/internal/say"
	"breakwright/internal/table"
	"breakwright/web/component"
	"breakwright/web/picture"
)

// answerWords is the page's first line.
func (v handsFitView) answerWords(u say.Units) string {
	n := say.Count(v.countBreaks(), "break", "breaks")
	switch {
	case v.countBreaks() == 0:
		return "No breaks to go by yet."
	case v.tooFewBreaks():
		return fmt.Sprintf("Too early: %s. From %d on the model makes a guess.", n, minFitBreaks)
	case v.Busy:
		return "Not computed yet: too many questions wait."
	case v.Progress != nil:
		return "Being computed."
	case v.Estimate == nil:
		return "Not computed."
	}
	e := *v.Estimate
	if e.Odd {
		return fmt.Sprintf("The model makes no breaks like these: of %s it can say nothing.", n)
	}
	apart := e.PlausibleCauses()
	if len(apart) > 1 {
		var names []string
		for _, c := range apart {
			names = append(names, causeWords(c.What))
		}
		return fmt.Sprintf("The model cannot tell yet: %s fit more than one cause. Either %s.", n, strings.Join(names, ", or "))
	}
	switch apart[0].What {
	case fit.OffContact:
		return fmt.Sprintf("The model’s guess from %s: the head ball is met %s of what the setup asks.", n, contactWords(e.Contact.Middle, u))
	case fit.OffTip:
		return fmt.Sprintf("The model’s guess from %s: the tip strikes %s than asked.", n, tipWords(e.Tip.Middle))
	case fit.OffPlace:
		return fmt.Sprintf("The model’s guess from %s: the cue ball or the rack does not stand where the setup has it.", n)
	}
	return fmt.Sprintf("The model’s guess from %s: on average the stroke is as the setup asks.", n)
}

// causeWords finishes "either …".
func causeWords(c fit.CauseName) string {
	switch c {
	case fit.OffContact:
		return "the head ball is met off the contact asked for"
	case fit.OffTip:
		return "the tip strikes higher or lower than asked"
	case fit.OffPlace:
		return "the cue ball or the rack stands elsewhere than asked"
	}
	return "all is as asked and the rest is luck"
}

func contactWords(inches float64, u say.Units) string {
	return u.Contact(table.Inches(math.Abs(inches))) + " to the " + string(table.SideOf(table.Inches(inches)))
}

func tipWords(radius float64) string {
	if radius < 0 {
		return say.Hundredths(-radius) + " of the radius lower"
	}
	return say.Hundredths(radius) + " of the radius higher"
}

// estimateRow is one estimate in words.
type estimateRow struct{ What, Middle, Range, Information string }

// withSign writes a number with its sign, and none where it is said as nothing.
func withSign(x float64, write func(float64) string) string {
	text := write(math.Abs(x))
	switch {
	case text == write(0):
		return text
	case x < 0:
		return "−" + text
	}
	return "+" + text
}

// estimateRows puts the estimates in words; what the breaks do not tell is said so.
func (v handsFitView) estimateRows(u say.Units) []estimateRow {
	e := *v.Estimate
	plain := func(x float64) string { return u.WithShort(say.Contact, x) }
	signed := func(x float64) string { return withSign(x, plain) }
	part := func(x float64) string { return withSign(x, say.Hundredths) }
	row := func(what string, x fit.UncertainValue, write func(float64) string) estimateRow {
		return estimateRow{what, write(x.Middle), write(x.Low) + " to " + write(x.High), informationWords(x.Learned)}
	}
	return []estimateRow{
		row("Contact, right of the setup", e.Contact, signed),
		row("Contact, how much it varies", e.ContactScatter, plain),
		row("Tip, above the setup, part of the radius", e.Tip, part),
		row("Tip, how much it varies, of the radius", e.TipScatter, say.Hundredths),
	}
}

// informationWords says how much the breaks showed.
func informationWords(learned float64) string {
	switch {
	case learned < 0.25:
		return "next to nothing"
	case learned < 0.6:
		return "something"
	}
	return "a good deal"
}

// contactMimicsPlace says why contact and place are hard to tell apart.
func (v handsFitView) contactMimicsPlace() bool {
	found := map[fit.CauseName]bool{}
	for _, c := range v.Estimate.PlausibleCauses() {
		found[c.What] = true
	}
	return found[fit.OffContact] || found[fit.OffPlace]
}

func shareWords(c fit.Cause) string { return fmt.Sprintf("%.0f of 100", 100*c.Share) }

func (s recentStint) stintWords(u say.Units) string {
	return fmt.Sprintf("%s on %s: cue ball %s; %s; %s.", say.Count(len(s.Breaks), "break", "breaks"), s.Table,
		picture.CuePlaceWords(s.Setup.Cue, s.Kind, u), component.TipHeightWords(s.Setup.Tip), component.SpeedWords(s.Setup.Speed, u))
}

// guessedSetup is the setup as the model guesses that it is carried out, within what a
// setup may be.
func (v handsFitView) guessedSetup() drill.Setup {
	s := v.Stints[0].Setup
	keep := func(x, most float64) float64 { return min(max(x, -most), most) }
	s.Contact = table.Inches(keep(float64(s.Contact)+v.Estimate.Contact.Middle, float64(drill.ContactLimit(s.Spot))))
	s.Tip = drill.RadiusFraction(keep(float64(s.Tip)+v.Estimate.Tip.Middle, float64(drill.MaxTip)))
	return s.Rounded()
}

// tryAddress leads to what the model makes of the setup carried out as guessed,
// beside the same hands on the setup told.
func (v handsFitView) tryAddress() string {
	s := v.Stints[0]
	instructed := newQuestion(s.Setup, s.Kind, s.Kind.StandardWindow())
	apart := s.Setup.Game.HeadBallPlace(s.Setup.Spot, s.Kind).Distance(s.Setup.Cue)
	instructed.Scatter.Aim = breaksim.Degrees(math.Min(v.Estimate.ContactScatter.Middle/float64(apart)*180/math.Pi, 5))
	instructed.Scatter.Tip = breaksim.RadiusFraction(v.Estimate.TipScatter.Middle)
	instructed = instructed.Canonical()
	now := instructed
	now.Setup = v.guessedSetup()
	now.Setup.Speed = instructed.Setup.Speed
	return pageQuery{Now: now, Was: &instructed, Show: -1}.pageAddress()
}

func (v handsFitView) tipView() picture.TipView {
	instructed, done := v.Stints[0].Setup, v.guessedSetup()
	return picture.TipView{ID: "fit-tip", Tip: done.Tip, Spin: done.Spin, Before: &picture.TipPlace{Tip: instructed.Tip, Spin: instructed.Spin}}
}

func (v handsFitView) contactView() picture.ContactView {
	return picture.ContactView{ID: "fit-contact", Head: v.Stints[0].Setup.HeadBall(), Contact: v.guessedSetup().Contact}
}
