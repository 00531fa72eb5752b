package evidence

// Looks is a plan to look again and again whether a change helped: a baseline, then
// the pooled breaks after the change compared with it after each set. Every look
// is another chance of a false alarm, so the certainty must be set for the whole
// course and not for one look.
type Looks struct {
	// Baseline is the number of breaks before the change.
	Baseline int
	// SetSize is the number of breaks between looks.
	SetSize int
	// Looks is how often one looks at most; the first alarm ends the course.
	Looks int
	// Certainty is what Better must reach, from flat priors, for an alarm.
	Certainty float64
}

// Alarm returns how likely an alarm has been raised by each look, when the true
// rates before and after the change are known. Equal rates give the chance of a
// false alarm, different ones that of finding out. It is exact.
func (l Looks) Alarm(before, after float64) []float64 {
	alarm := make([]float64, max(l.Looks, 0))
	set := binomial(max(l.SetSize, 0), after)
	for made, chance := range binomial(l.Baseline, before) {
		l.addAlarms(alarm, chance, FromCounts(made, max(l.Baseline, 0), Uniform()), set)
	}
	for i := 1; i < len(alarm); i++ {
		alarm[i] += alarm[i-1]
	}
	return alarm
}

// addAlarms adds, for one baseline of a given chance, the chance of a first alarm
// at each look.
func (l Looks) addAlarms(alarm []float64, chance float64, baseline Beta, set []float64) {
	running := []float64{chance} // by makes since the change, no alarm yet
	for look := range alarm {
		running = convolve(running, set)
		tried := len(running) - 1
		first := firstNot(tried, func(made int) bool {
			return Better(baseline, FromCounts(made, tried, Uniform())) < l.Certainty
		})
		for made := first; made <= tried; made++ {
			alarm[look] += running[made]
			running[made] = 0
		}
	}
}
