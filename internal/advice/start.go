package advice

import (
	"math"

	"breakwright/internal/drill"
	"breakwright/internal/evidence"
	"breakwright/internal/rack"
	"breakwright/internal/say"
	"breakwright/internal/table"
)

// Conditions is where a student is going to break.
type Conditions struct {
	Table string
	Kind  table.Kind
	Side  table.Side
	Game  rack.Game
}

// StartingSetup is where to start on a table.
type StartingSetup struct {
	// Setup is complete and within the limits of the table.
	Setup drill.Setup
	// Targets are those of the table, less where its corners are tight.
	Targets drill.Targets
	// From names the table the setup was carried over from; "" when it is the
	// standard one.
	From string
	// Statement is where it comes from.
	Statement say.Statement
}

// SuggestStart says where to begin on a table: with the student's best setup there
// if there is one, else with the best on the nearest kind of table, the other
// side's mirrored, and with the standard setup when nothing is known.
func SuggestStart(history []drill.Set, on Conditions, b Brief) StartingSetup {
	begin := StartingSetup{
		Setup:   withinLimits(drill.StandardSetup(on.Game, on.Side, on.Kind).ForSide(table.Left), on.Kind).ForSide(on.Side),
		Targets: standardTargetsFor(on.Kind), Statement: say.Statement{Kind: say.StartStandard},
	}
	n := b.Rules.numbersOf(newTableRule)
	if !n.On {
		return begin
	}
	var best *candidate
	for _, c := range listCandidates(history, on, b, n.MinBreaks) {
		if best == nil || c.ranksAbove(*best) {
			best = &c
		}
	}
	if best == nil {
		return begin
	}
	s := withinLimits(best.setup.CarryToKind(best.kind, on.Kind), on.Kind)
	begin.Setup, begin.From = s.ForSide(on.Side), best.table
	begin.Statement = startStatement(*best, on)
	return begin
}

// candidate is a setup known from another table, in the left frame.
type candidate struct {
	table    string
	kind     table.Kind
	setup    drill.Setup
	distance float64 // how unlike the tables are
	rate     float64 // believed rate of the wing ball
	made     int
	tried    int
}

// ranksAbove prefers the nearer kind of table, then the better rate.
func (c candidate) ranksAbove(o candidate) bool {
	if c.distance != o.distance {
		return c.distance < o.distance
	}
	return c.rate > o.rate
}

// listCandidates lists every setup tried under each pool key with the same game.
func listCandidates(history []drill.Set, on Conditions, b Brief, fewest int) []candidate {
	var keys []poolKey
	byKey := map[poolKey][]drill.Set{}
	for _, set := range history {
		if len(set.Breaks) == 0 || set.Setup.Game != on.Game {
			continue
		}
		g := poolKeyOf(set)
		if _, known := byKey[g]; !known {
			keys = append(keys, g)
		}
		byKey[g] = append(byKey[g], set)
	}
	var list []candidate
	for _, g := range keys {
		l := newAnalysis(byKey[g], b)
		for _, t := range l.records {
			if t.tally.watched < fewest {
				continue
			}
			believed := evidence.BetaFromCounts(t.tally.wingMade, t.tally.watched, evidence.UniformPrior())
			list = append(list, candidate{
				table: g.table, kind: g.kind, setup: t.setup, distance: tableDistance(g, on),
				rate: believed.Mean(), made: t.tally.wingMade, tried: t.tally.watched,
			})
		}
	}
	return list
}

// tableDistance grows with the difference of two tables: another length counts most,
// then the pockets, then the other side, then another table of the same kind.
func tableDistance(g poolKey, on Conditions) float64 {
	far := 10 * math.Abs(float64(g.kind.Feet-on.Kind.Feet))
	if g.kind.Feet == on.Kind.Feet && g.kind.Small != on.Kind.Small {
		far += 5
	}
	far += math.Abs(float64(g.kind.CornerMouth - on.Kind.CornerMouth))
	if g.side != on.Side {
		far += 0.5
	}
	if g.table != on.Table {
		far += 0.25
	}
	return far
}

// standardTargetsFor returns the standard targets, the wing ball's lowered by a tenth for
// every half inch that the corners are tighter than standard (common practice,
// no source).
func standardTargetsFor(k table.Kind) drill.Targets {
	t := drill.StandardTargets(k)
	if tight := float64(table.StandardCornerMouth - k.CornerMouth); tight > 0 {
		t.Wing = math.Max(0.2, t.Wing-0.2*tight)
	}
	return t
}

// startStatement says where the first setup on a table comes from.
func startStatement(c candidate, on Conditions) say.Statement {
	statement := say.Statement{Kind: say.StartHere, Count: c.made, Of: c.tried}
	if c.table == on.Table && c.kind == on.Kind {
		return statement
	}
	statement.Kind, statement.About, statement.Yes = say.StartFrom, c.table, !c.kind.SameSize(on.Kind)
	if statement.Yes {
		statement.From = math.Abs(float64(c.setup.Cue.X))
		statement.To = math.Abs(float64(withinLimits(c.setup.CarryToKind(c.kind, on.Kind), on.Kind).Cue.X))
		there, here := c.kind.DiamondSpacing(), on.Kind.DiamondSpacing()
		if words := say.Diamonds(table.Inches(statement.From), there); words != "" && words == say.Diamonds(table.Inches(statement.To), here) {
			statement.Diamond = float64(there) // the same in diamonds, but for a table's limits
		}
	}
	if c.kind.CornerMouth > on.Kind.CornerMouth {
		statement.Way = 1
	}
	return statement
}
