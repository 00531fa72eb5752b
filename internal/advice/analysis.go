package advice

import (
	"cmp"
	"math"
	"slices"

	"breakwright/internal/belief"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// analysis is everything the rules may look at: one student's stints under
// one pool key, turned so that the break comes from the left.
type analysis struct {
	kind table.Kind
	// mirror says that the student breaks from the right.
	mirror  bool
	targets drill.Targets
	house   drill.HouseRules
	rules   Rules
	// weights are what a break is worth to this club, under the drill's goals.
	weights belief.Weights
	// asked is what the club asks of the weighing.
	asked weighing
	// records are the setups tried, each once, with all that was seen under it.
	records []*setupRecord
	// path is the order in which they were played.
	path []pathStep
	// pastChanges are the steps between them, oldest first.
	pastChanges []pastChange
	// speedUnknown says that no speed was told or measured: the speed in force is
	// only the one that is begun with.
	speedUnknown bool
	// overrides are the coach's decisions that concern these sets.
	overrides []Override
	// tablesPlay is how the tables play, as others' breaks of this rack showed it.
	tablesPlay drill.TablesPlay
	// hands is what is believed of the student; nil where nothing has been weighed.
	hands *belief.Student
}

// setupRecord is one setup with what was seen under it.
type setupRecord struct {
	setup drill.Setup
	tally breakTally
	// played are the sets, as they were recorded.
	played []drill.Set
}

// setNames names the sets.
func (r *setupRecord) setNames() []string {
	names := make([]string, len(r.played))
	for i, set := range r.played {
		names[i] = set.Name
	}
	return names
}

// pathStep is a setup played without another between, with what was seen then.
type pathStep struct {
	record *setupRecord
	tally  breakTally
	played []drill.Set
}

// currentRecord is the setup that is judged.
func (l *analysis) currentRecord() *setupRecord { return l.path[len(l.path)-1].record }

// currentTally is what was seen under the present setup.
func (l *analysis) currentTally() *breakTally { return &l.currentRecord().tally }

// currentSetup is the present one.
func (l *analysis) currentSetup() drill.Setup { return l.currentRecord().setup }

// poolKey is what must agree before sets can be learned from together.
type poolKey struct {
	table string
	kind  table.Kind
	side  table.Side
	game  string
	spot  string
	wing  string
}

func poolKeyOf(s drill.Set) poolKey {
	return poolKey{s.Table, s.Kind, s.Setup.Side, string(s.Setup.Game), string(s.Setup.Spot), string(s.Setup.Wing)}
}

// newAnalysis reads the sets of one pool key, oldest first, of which there is at
// least one with a break.
func newAnalysis(sets []drill.Set, b Brief) *analysis {
	last := sets[len(sets)-1]
	l := &analysis{kind: last.Kind, targets: b.resolveTargets(last.Kind), house: b.House, rules: b.Rules, mirror: last.Setup.Side == table.Right}
	e := frame{kind: last.Kind, window: b.resolveWindow(last), mirror: last.Setup.Side == table.Right}
	l.weights, l.asked = b.Rules.weights(l.targets, b.House), b.Rules.weighing()
	l.speedUnknown = !slices.ContainsFunc(sets, func(s drill.Set) bool { return s.Setup.Speed != 0 })
	sets = withSteadySpeeds(sets, e.mirror)
	for _, stint := range drill.GroupStints(sets) {
		l.addStint(stint)
	}
	l.countBreaks(e)
	l.pastChanges = l.listPastChanges()
	l.tablesPlay = b.TablesPlay
	for _, o := range b.Overrides {
		if o.Table == "" || o.Table == last.Table {
			l.overrides = append(l.overrides, o.inLeftFrame(e.mirror))
		}
	}
	return l
}

// addStint adds the sets of a stint to the record of their setup and to the path.
func (l *analysis) addStint(stint drill.Stint) {
	record := l.findOrAddRecord(stint.Setup)
	if n := len(l.path); n == 0 || l.path[n-1].record != record {
		l.path = append(l.path, pathStep{record: record})
	}
	step := &l.path[len(l.path)-1]
	step.played = append(step.played, stint.Sets...)
	record.played = append(record.played, stint.Sets...)
}

// findOrAddRecord finds the record of a setup, or opens one. A setup that is gone back
// to is the same record: what was seen there before still counts, and its speed is
// the one measured last.
func (l *analysis) findOrAddRecord(s drill.Setup) *setupRecord {
	for _, r := range l.records {
		if r.setup.SameAs(s) {
			r.setup.Speed = s.Speed
			return r
		}
	}
	r := &setupRecord{setup: s}
	l.records = append(l.records, r)
	return r
}

// countBreaks counts what was seen under each setup, and at each step of the path.
func (l *analysis) countBreaks(e frame) {
	for _, r := range l.records {
		r.tally = tallySets(r.played, r.setup, e)
	}
	for i := range l.path {
		step := &l.path[i]
		if step.tally = step.record.tally; len(step.played) != len(step.record.played) {
			step.tally = tallySets(step.played, step.record.setup, e)
		}
	}
}

// withSteadySpeeds turns the setups to the left frame and gives every set a
// speed. Measured speeds differ a little from set to set without anybody
// having changed anything, so sets within half a notch of the first of them all
// have the speed of the last of them; a set without a speed has it too, and
// before any speed is known it is the one that is begun with.
func withSteadySpeeds(sets []drill.Set, mirror bool) []drill.Set {
	steady := make([]drill.Set, len(sets))
	for i, set := range sets {
		if mirror {
			set.Setup = set.Setup.Mirror()
		}
		set.Setup = replaceNonFinite(set.Setup, set.Kind).Rounded()
		steady[i] = set
	}
	for rest := steady; len(rest) > 0; {
		n, speed := firstSpeedRun(rest)
		for i := range rest[:n] {
			rest[i].Setup.Speed = speed
		}
		rest = rest[n:]
	}
	return steady
}

// firstSpeedRun counts the sets, from the first on, that have the first one's speed,
// or none, and returns the one measured last.
func firstSpeedRun(sets []drill.Set) (n int, speed table.Mph) {
	first := cmp.Or(sets[0].Setup.Speed, ordinarySpeed)
	speed = first
	for _, set := range sets {
		instructed := set.Setup.Speed
		if math.Abs(float64(cmp.Or(instructed, first)-first)) > float64(drill.SpeedTolerance) {
			break
		}
		n, speed = n+1, cmp.Or(instructed, speed)
	}
	return n, speed
}

func (b Brief) resolveTargets(k table.Kind) drill.Targets {
	t, standard := b.Targets, drill.StandardTargets(k)
	if !(t.Wing > 0 && t.Wing <= 1) {
		t.Wing = standard.Wing
	}
	if !(t.Window > 0 && t.Window <= 1) {
		t.Window = standard.Window
	}
	return t
}

// resolveWindow returns the brief's window in the left frame.
func (b Brief) resolveWindow(last drill.Set) table.Window {
	w := b.Window
	if w == (table.Window{}) || w.Check(last.Kind) != nil {
		return last.Kind.StandardWindow()
	}
	if last.Setup.Side == table.Right {
		return w.Mirror()
	}
	return w
}

func (o Override) inLeftFrame(mirror bool) Override {
	if !mirror {
		return o
	}
	if o.Under != (drill.Setup{}) {
		o.Under = o.Under.Mirror()
	}
	if o.Instead != (drill.Setup{}) {
		o.Instead = o.Instead.Mirror()
	}
	return o
}
