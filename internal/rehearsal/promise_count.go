package rehearsal

// PromiseRow is what became of one kind of promise.
type PromiseRow struct {
	Promise string `json:"promise"`
	Made    int    `json:"made"`
	// Claimed is the mean chance or share that was said, Came the mean of what was
	// true; Of is how often it came for promises that are kept or not.
	Claimed float64 `json:"claimed"`
	Came    Mean    `json:"came"`
	// OfUnmoved counts how often it was said of students whom no change affects,
	// and of how many of their sets after a change.
	OfUnmoved Share `json:"of_unmoved"`
}

// weighedPromise counts as much as its weight among those of its kind.
type weighedPromise struct {
	promise
	weight float64
}

func (p weighedPromise) weightOf() float64 { return p.weight }

// countPromises sums up what was promised to students whom changes affect, and
// counts what was said of those whom they do not.
func countPromises(students []promisedStudent) []PromiseRow {
	made, unmoved := map[promiseKind][]weighedPromise{}, map[promiseKind]int{}
	changedSets := 0
	for _, s := range students {
		for _, p := range s.promises {
			if s.fault == NoEffect {
				unmoved[p.kind]++
			} else {
				made[p.kind] = append(made[p.kind], weighedPromise{p, p.kind.weight(s.fault)})
			}
		}
		if s.fault == NoEffect {
			changedSets += s.setsAfterChange
		}
	}
	var rows []PromiseRow
	for _, kind := range promiseKinds() {
		list := made[kind]
		row := PromiseRow{Promise: string(kind), Made: len(list)}
		row.Claimed = weighedMeanOf(list, weighedPromise.weightOf, func(p weighedPromise) float64 { return p.claimed }).Mean
		row.Came = weighedMeanOf(list, weighedPromise.weightOf, func(p weighedPromise) float64 { return p.actual })
		switch kind {
		case promiseHelped, promiseHurt, promiseNoDifference:
			row.OfUnmoved = shareOfCount(unmoved[kind], changedSets)
		}
		rows = append(rows, row)
	}
	return rows
}
