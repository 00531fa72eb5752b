package picture_test

import (
	"breakwright/internal/table"
	"breakwright/web/picture"
)

// mirrorView returns the picture across the long string.
func mirrorView(t picture.TableView) picture.TableView {
	t.Rack = mirrorPointer(t.Rack, func(r picture.RackedBalls) picture.RackedBalls {
		r.Order, r.Wing = r.Order.Mirror(r.Game), r.Wing.Mirror()
		return r
	})
	t.Cue, t.Before = mirrorPointer(t.Cue, mirrorCueBall), mirrorPointer(t.Before, mirrorCueBall)
	t.Window = mirrorPointer(t.Window, table.Window.Mirror)
	t.Mean = mirrorPointer(t.Mean, func(e picture.Ellipse) picture.Ellipse {
		e.Centre, e.AngleRadians = e.Centre.Mirror(), table.FlipSign(e.AngleRadians)
		return e
	})
	t.Stops = mapSlice(t.Stops, func(s picture.Stop) picture.Stop { s.Place = s.Place.Mirror(); return s })
	t.Scratches = mapSlice(t.Scratches, func(s picture.Scratch) picture.Scratch { s.Pocket = s.Pocket.Mirror(); return s })
	t.Earlier = mapSlice(t.Earlier, table.Place.Mirror)
	t.Balls = mapSlice(t.Balls, func(b picture.RestBall) picture.RestBall { b.Place = b.Place.Mirror(); return b })
	t.Paths = mapSlice(t.Paths, func(p picture.Path) picture.Path { return picture.Path{Places: mapSlice(p.Places, table.Place.Mirror)} })
	return t
}

func mirrorCueBall(c picture.CueBall) picture.CueBall {
	c.Place, c.Contact = c.Place.Mirror(), table.FlipSign(c.Contact)
	return c
}

func mirrorPointer[T any](p *T, mirror func(T) T) *T {
	if p == nil {
		return nil
	}
	m := mirror(*p)
	return &m
}

func mapSlice[T any](list []T, f func(T) T) []T {
	var all []T
	for _, v := range list {
		all = append(all, f(v))
	}
	return all
}
