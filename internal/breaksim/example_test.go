package breaksim_test

import (
	"fmt"
	"math/rand/v2"

	"breakwright/internal/breaksim"
	"breakwright/internal/rack"
	"breakwright/internal/table"
)

// A break from the left with a full hit, as a steady breaker would do it.
func ExampleTable_ComputeBreak() {
	t, err := breaksim.NewTable(breaksim.Defaults(), table.NineFoot())
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := t.ComputeBreak(breaksim.BreakInput{
		Game: rack.NineBall,
		Cue:  table.Place{X: -18, Y: 25}, Tip: -0.1, Speed: 18,
		Scatter: breaksim.StrokeScatter{Aim: 0.2, Speed: 0.5, Tip: 0.05, Place: 0.2, Gap: 0.003},
	}, rand.New(rand.NewPCG(1, 2)))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the cue ball met the %s in slot %s, covering more than 9/10 of it: %v\n", r.Hit.Ball, r.Hit.Slot, r.Hit.Fullness > 0.9)
	fmt.Printf("%d balls on the table, in pockets or off it\n", len(r.Balls))
	// Output:
	// the cue ball met the 1 in slot 1, covering more than 9/10 of it: true
	// 10 balls on the table, in pockets or off it
}
