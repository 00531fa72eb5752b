// Package rackplan proposes which ball should stand in which slot of the rack,
// from where the ball of each slot comes to rest in a student's own breaks.
//
// A ball is a ball: what a slot's ball does on the break does not depend on its
// number. So each slot has a spread over the table (thirty-two cells, or gone)
// that can be counted over breaks with any rack order, and an order is a way to
// deal the numbers over these spreads. An order is worth, per break, the chance
// of a shot on the lowest ball left times the position for the one after it,
// averaged over the spreads; in eight-ball, where any group may be taken, the
// share of the better group's balls that are down or have a shot.
//
// A student's own counts are few, so they start from what breaks of package
// breaksim say (computed.json, made by the command in compute), weighing as much
// as that many own breaks as those spreads can be trusted for: the strength, which
// is found from how much computed students with different setups, hands, cloths
// and cushions differ, and from how well the student's own counts agree with them.
// Every plan says how much of it is the student's own.
//
// One legal swap is proposed at a time, with the gain it is expected to bring and
// a range that holds it four times in five; or it is too early. Slots are taken
// to be independent of one another within a break and corrected for what computed
// leaves say otherwise; where a student placed the balls that matter, the leaves
// themselves are looked at again with the balls changed. See PLAN.md.
//
// It knows no pages, no storage and no clock. Everything is computed for a break
// from the left and mirrored for the right.
package rackplan
