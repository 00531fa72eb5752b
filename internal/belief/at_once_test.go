package belief_test

import (
	"slices"
	"sync"
	"testing"

	"breakwright/internal/belief"
	"breakwright/internal/breaksim"
	"breakwright/internal/drill"
	"breakwright/internal/table"
)

// Students who are judged at the same time share what is computed, and each is believed as
// one who is judged alone, to the last bit.
func TestStudent_ManyAtOnce(t *testing.T) {
	var others belief.Shown
	for student := range uint64(6) {
		others.Add(belief.Show(nineBall, table.NineFoot(), setup(), breaksOf(t, 20, func(*breaksim.BreakInput) {}, 700+student)))
	}
	played := setup()
	played.Cue.X += 3 // where nobody else in these tests breaks: all of it is computed here
	further := played
	further.Cue.X++
	breaks := breaksOf(t, 20, func(in *breaksim.BreakInput) { in.Contact = 0.3 }, 17)
	var effects [8][]belief.Effect
	var group sync.WaitGroup
	for i := range effects {
		group.Go(func() {
			s, _ := belief.NewStudent(nineBall, others.TablesPlay())
			s.Observe(table.NineFoot(), played, breaks)
			s.Observe(table.NineFoot(), further, breaks)
			effects[i] = s.CompareAll(belief.StandardWeights(), belief.Limits{MostHarm: 1}, table.NineFoot(), played, []drill.Setup{further, setup()})
		})
	}
	group.Wait()
	for i := range effects {
		if !slices.Equal(effects[i], effects[0]) {
			t.Errorf("one is told %+v, another %+v", effects[i], effects[0])
		}
	}
}
