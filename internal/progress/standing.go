package progress

import (
	"math"

	"breakwright/internal/evidence"
	"breakwright/internal/table"
)

// CountedMember is a student's count on a kind of table.
type CountedMember struct {
	Kind  table.Kind
	Count evidence.Count
}

// RankedMember is a member's place to be ordered by.
type RankedMember struct {
	// Group says which members can be compared: those who broke on the same kind
	// of table. 0 is the kind that most did; members without a break have the
	// last.
	Group int
	// Rate is the member's rate drawn toward the mean of their group, the more
	// so the fewer breaks it rests on.
	Rate float64
	// Weight is how much of Rate is the member's own, 0 to 1.
	Weight float64
}

// RankMembers compares members with those on the same kind of table alone: a rate on
// tight pockets says nothing beside one on wide ones. The answer is in the order
// of the members.
func RankMembers(members []CountedMember) []RankedMember {
	order, counts := groupByKind(members)
	fits := make([]evidence.Population, len(order))
	for i, kind := range order {
		fits[i] = evidence.FitPopulation(counts[kind])
	}
	ranked := make([]RankedMember, len(members))
	for i, m := range members {
		s := RankedMember{Group: len(order)}
		if m.Count.Tried > 0 {
			s.Group = groupIndex(order, m.Kind)
			fit := fits[s.Group]
			s.Rate, s.Weight = fit.ShrinkRate(m.Count), ownWeight(m.Count, fit)
		}
		ranked[i] = s
	}
	return ranked
}

func ownWeight(c evidence.Count, p evidence.Population) float64 {
	if math.IsInf(p.Strength, 1) {
		return 0
	}
	return float64(c.Tried) / (float64(c.Tried) + p.Strength)
}

// groupByKind lists the kinds, the one with most members first; the first met first
// among equals.
func groupByKind(members []CountedMember) ([]table.Kind, map[table.Kind][]evidence.Count) {
	var order []table.Kind
	counts := map[table.Kind][]evidence.Count{}
	for _, m := range members {
		if m.Count.Tried <= 0 {
			continue
		}
		if counts[m.Kind] == nil {
			order = append(order, m.Kind)
		}
		counts[m.Kind] = append(counts[m.Kind], m.Count)
	}
	for i := 1; i < len(order); i++ {
		for j := i; j > 0 && len(counts[order[j]]) > len(counts[order[j-1]]); j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	return order, counts
}

func groupIndex(order []table.Kind, k table.Kind) int {
	for i, kind := range order {
		if kind == k {
			return i
		}
	}
	return len(order)
}
