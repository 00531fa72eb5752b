package rehearsal

import (
	"math"

	"breakwright/internal/advice"
	"breakwright/internal/belief"
	"breakwright/internal/drill"
)

// promise is something that the adviser said of the future or of a cause, with
// what was true.
type promise struct {
	kind promiseKind
	// claimed is the chance or the share that was said; actual is 1 or 0 for
	// something that was so or not, or a true share.
	claimed, actual float64
}

// promiseKind is a kind of promise; the report has a row for each.
type promiseKind string

const (
	promiseHelps        promiseKind = "the change helps"
	promiseLookFor      promiseKind = "look for … in ten"
	promiseCause        promiseKind = "the likeliest cause is the one"
	promiseHelped       promiseKind = "it helped"
	promiseHurt         promiseKind = "it got worse"
	promiseNoDifference promiseKind = "no real difference"
)

// promiseKinds lists them as the report does.
func promiseKinds() []promiseKind {
	return []promiseKind{promiseHelps, promiseLookFor, promiseCause, promiseHelped, promiseHurt, promiseNoDifference}
}

// leastGain is the gain in worth, a break, that helps.
const leastGain = 0.05

// listPromises returns what advice promises of a student who has been through
// these setups.
func listPromises(s Student, a *advice.Advice, setups []drill.Setup, under condition, t *rateCounter) []promise {
	if a == nil || !s.byWorth {
		return nil
	}
	var list []promise
	if p := a.Prescription; p != nil && p.HelpP > 0 {
		now, then := t.countRates(under, t.fineBreaks), t.countRates(condition{a.Next, under.rackChecked}, t.fineBreaks)
		list = append(list, promise{promiseHelps, p.HelpP, oneIf(then.Worth-now.Worth > leastGain)})
		if share, counted := then.shareOf(p.LookFor.What); counted {
			list = append(list, promise{promiseLookFor, p.LookFor.Share, share})
		}
	}
	isUnchanged := setups[len(setups)-1].SameAs(setups[0]) && !under.rackChecked
	if len(a.Causes) > 0 && s.Fault != NoEffect && isUnchanged { // afterwards what was amiss may be no more
		top := a.Causes[0]
		list = append(list, promise{promiseCause, top.Share, oneIf(s.hasCause(belief.Cause(top.Name)))})
	}
	if p, known := outcomePromise(a.FollowUp, setups, under, t); known {
		list = append(list, p)
	}
	return list
}

// faultOf is the fault that a cause of the adviser names.
var faultOf = map[belief.Cause]Fault{
	belief.Nothing: NoFault, belief.Place: Place, belief.Contact: Contact, belief.Tip: Tip, belief.Spin: SideSpin,
	belief.Speed: Speed, belief.Unsteady: Steadiness, belief.LooseRack: LooseRack,
}

// hasCause reports whether a cause is what is amiss with a student. Who is told more power
// than they control has a stroke that does not hold together: it is either.
func (s Student) hasCause(c belief.Cause) bool {
	isForced := s.Fault == Speed && s.hasRemedy(Remedy{Variable: advice.VarySpeed})
	return faultOf[c] == s.Fault || isForced && c == belief.Unsteady
}

// weight is how much a promise to a student with a fault counts beside others of its kind.
// How often the likeliest cause is the one depends on how common each is: they count as the
// adviser takes them to be, and not as the rehearsal, which has as many of each.
func (k promiseKind) weight(f Fault) float64 {
	if k != promiseCause {
		return 1
	}
	for cause, fault := range faultOf {
		if fault == f {
			return belief.PriorShare(cause)
		}
	}
	return 0
}

// shareOf returns the true share of what an expectation speaks of, where it is
// counted.
func (r Rates) shareOf(what string) (share float64, counted bool) {
	switch what {
	case advice.ExpectDown:
		return r.Clean, true
	case advice.ExpectWing:
		return r.Wing, true
	case advice.ExpectScratch:
		return r.Scratch, true
	case advice.ExpectMiddle:
		return r.Middle, true
	}
	return 0, false
}

// outcomePromise is what was said of the latest change, with what is true of the
// share it was about: that it grew for the better, for the worse, or by less than
// advice.RealDifference.
func outcomePromise(f *advice.FollowUp, setups []drill.Setup, under condition, t *rateCounter) (promise, bool) {
	before, changed := setupBefore(setups)
	if f == nil || !changed {
		return promise{}, false
	}
	share := func(r Rates) float64 {
		switch f.Measure {
		case "wing ball":
			return r.Wing
		case "cue ball in the window":
			return r.Window
		case "scratches":
			return -r.Scratch
		case "balls off the table":
			return -r.Off
		case "breaks with nothing down":
			return -r.Dry
		}
		return r.Clean
	}
	by := share(t.countRates(under, t.fineBreaks)) - share(t.countRates(condition{before, under.rackChecked}, t.fineBreaks))
	switch f.Outcome {
	case advice.Helped:
		return promise{promiseHelped, f.HelpedP, oneIf(by > 0)}, true
	case advice.Hurt:
		return promise{promiseHurt, f.HurtP, oneIf(by < 0)}, true
	case advice.NoDifference:
		return promise{promiseNoDifference, f.SameP, oneIf(math.Abs(by) < advice.RealDifference)}, true
	}
	return promise{}, false
}

// setupBefore returns the setup before the present one.
func setupBefore(setups []drill.Setup) (drill.Setup, bool) {
	now := setups[len(setups)-1]
	for i := len(setups) - 2; i >= 0; i-- {
		if !setups[i].SameAs(now) {
			return setups[i], true
		}
	}
	return drill.Setup{}, false
}

func oneIf(is bool) float64 {
	if is {
		return 1
	}
	return 0
}
