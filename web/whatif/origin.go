package whatif

import (
	"hash/fnv"
	"math/rand/v2"
	"net/http"

	"breakwright/internal/drill"
	"breakwright/internal/rack"
	"breakwright/internal/store"
	"breakwright/internal/table"
	"breakwright/internal/whatif"
	"breakwright/web/page"
	"breakwright/web/session"
)

// beginFromOrigin starts from a drill, a set or a prescription that the address names.
func (p *Pages) beginFromOrigin(r *http.Request, form *page.Form) (began bool, a pageQuery, err error) {
	a = pageQuery{Show: -1}
	actor, ctx := session.MustUser(r).Actor, r.Context()
	switch {
	case form.Has("drill"):
		id, err := store.ParseID[store.DrillID](form.Text("drill"))
		if err != nil {
			return false, a, err
		}
		d, err := p.store.GetDrill(ctx, actor, id)
		if err != nil {
			return false, a, err
		}
		a.Now, a.Box = newQuestion(d.Setup, d.Kind, d.Window), d.House.BreakBox
	case form.Has("set"):
		id, err := store.ParseID[store.SetID](form.Text("set"))
		if err != nil {
			return false, a, err
		}
		set, err := p.store.GetSet(ctx, actor, id)
		if err != nil {
			return false, a, err
		}
		a.Now, a.Box = newQuestion(set.Setup, set.Table.Kind, set.Window), keptBox(set, set.Setup)
	case form.Has("prescription"):
		id, err := store.ParseID[store.PrescriptionID](form.Text("prescription"))
		if err != nil {
			return false, a, err
		}
		return p.beginFromPrescription(r, id)
	default:
		return false, a, nil
	}
	return true, a, nil
}

// beginFromPrescription compares the setups before and after a prescription.
func (p *Pages) beginFromPrescription(r *http.Request, id store.PrescriptionID) (bool, pageQuery, error) {
	actor := session.MustUser(r).Actor
	one, err := p.store.GetPrescription(r.Context(), actor, id)
	if err != nil {
		return false, pageQuery{}, err
	}
	set, err := p.store.GetSet(r.Context(), actor, one.Set)
	if err != nil {
		return false, pageQuery{}, err
	}
	was := newQuestion(one.Before, set.Table.Kind, set.Window)
	return true, pageQuery{Now: newQuestion(one.After, set.Table.Kind, set.Window), Was: &was, Show: -1, Box: keptBox(set, one.After)}, nil
}

// keptBox is the break box that a set was broken under, and none when a setup is outside
// of it already: then that is what is asked about.
func keptBox(set store.Set, s drill.Setup) table.Inches {
	if !s.InBox(set.House.BreakBox) {
		return 0
	}
	return set.House.BreakBox
}

// newQuestion asks about a setup, with everything else as on first sight.
func newQuestion(s drill.Setup, k table.Kind, w table.Window) whatif.Question {
	q := initialQuestion()
	q.Kind, q.Setup, q.Window = k, s, w
	if q.Setup.Speed == 0 {
		q.Setup.Speed = drill.UsualSpeed
	}
	if w.Check(k) != nil {
		q.Window = k.StandardWindow()
	}
	return q
}

// shuffledOrder gives another order, always the same one after the same, so that an
// address stays what it was.
func shuffledOrder(s drill.Setup) rack.Order {
	h := fnv.New64a()
	_, _ = h.Write([]byte(s.Order.String())) // a hash never fails
	return rack.ShuffleOrder(s.Game, rand.New(rand.NewPCG(h.Sum64(), 1)))
}
