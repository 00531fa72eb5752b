package progress

import (
	"fmt"
	"slices"
	"time"

	"breakwright/internal/advice"
	"breakwright/internal/progress"
	"breakwright/internal/say"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// newPlaceCurve draws what the adviser believed of the places, over those tried.
func newPlaceCurve(p *advice.Places, now store.Stint) *picture.CurveView {
	c := &picture.CurveView{ID: "curve", Label: "Wing ball in its corner", Kind: now.Table.Kind, Level: p.Level}
	points := slices.Clone(p.Curve)
	slices.SortFunc(points, func(a, b advice.CurvePoint) int {
		if a.X < b.X {
			return -1
		}
		return 1
	})
	for _, at := range points {
		c.Places = append(c.Places, at.X)
		c.Mean, c.Low, c.High = append(c.Mean, at.Mean), append(c.Low, at.Low), append(c.High, at.High)
	}
	for _, t := range p.Tried {
		c.Tried = append(c.Tried, picture.TriedPlace{Place: t.X, Made: t.Made, Of: t.Breaks})
	}
	if now.Latest {
		x := now.Setup.Cue.X
		c.Now = &x
	}
	return c
}

// newControlChart draws a chart over the sets it was made of.
func newControlChart(chart progress.Chart, sets []store.RecentSet, zone *time.Location) *picture.ControlView {
	v := &picture.ControlView{
		ID: "control", Label: "Wing ball in its corner, set by set", Usual: chart.Base.Rate(), Limit: progress.SumLimit,
	}
	watched := map[int]progress.ChartPoint{}
	for _, p := range chart.Points {
		watched[p.Set] = p
	}
	var last store.StintID
	for i, set := range sets {
		if set.Watched < progress.FewestBreaks {
			continue
		}
		p, is := watched[i]
		v.Sets = append(v.Sets, picture.ControlSet{
			SetRate: picture.SetRate{Made: set.WingMade, Of: set.Watched, NewSetup: last != (store.StintID{}) && set.Stint != last},
			Watched: is, Low: p.Low, High: p.High, Day: say.DayOfYear(set.Started.In(zone)),
		})
		last = set.Stint
	}
	return v
}

// chartWords says what the chart says.
func chartWords(chart progress.Chart, charted bool, sets int) string {
	if !charted {
		return fmt.Sprintf("%d of %d sets. From then on, on one kind of table, a chart here tells a slump from a bad day.", sets, progress.NeededSets)
	}
	usual := say.OfTotal(chart.Base.Made, chart.Base.Tried) + " in the " + say.Count(chart.BaseSets, "set", "sets") + " before"
	since := chart.TrendPoints()
	n := progress.SumPoints(since)
	switch chart.CurrentTrend() {
	case progress.Falling:
		return fmt.Sprintf("Lower than usual for %s: %s, and %s those watched. That is hardly luck.",
			say.Count(len(since), "set", "sets"), say.OfTotal(n.Made, n.Tried), usual)
	case progress.Rising:
		return fmt.Sprintf("Better than usual for %s: %s, and %s those watched. That is hardly luck.",
			say.Count(len(since), "set", "sets"), say.OfTotal(n.Made, n.Tried), usual)
	}
	n = progress.SumPoints(chart.Points)
	return fmt.Sprintf("As usual: %s in the last %s, and %s. Single sets go up and down by luck.",
		say.OfTotal(n.Made, n.Tried), say.Count(len(chart.Points), "set", "sets"), usual)
}

// newCloud draws where the cue balls of breaks stopped.
func newCloud(id, title string, s store.ShownStint) picture.CloudView {
	c := picture.CloudView{ID: id, Title: title, Kind: s.Table.Kind, Window: &s.Window, From: new(table.Place)}
	*c.From = s.Setup.Cue
	for _, b := range s.Breaks {
		addBreakToCloud(&c, b, s.Window)
	}
	markWhereMostStop(&c)
	return c
}
