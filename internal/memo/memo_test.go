package memo_test

import (
	"sync"
	"testing"

	"breakwright/internal/memo"
)

// counted asks for a key and says how often its value was computed in all.
func counted(m *memo.Memo[int, int]) func(key int) (value, computed int) {
	times := map[int]int{}
	return func(key int) (int, int) {
		value := m.FindOrCompute(key, func() int {
			times[key]++
			return 10 * key
		})
		return value, times[key]
	}
}

func TestMemo_ComputesOnceWhatFits(t *testing.T) {
	ask := counted(memo.New[int, int](1, 3))
	for range 5 {
		for key := 1; key <= 3; key++ {
			if value, computed := ask(key); value != 10*key || computed != 1 {
				t.Fatalf("of %d: %d, computed %d times", key, value, computed)
			}
		}
	}
}

func TestMemo_BeginsAnewWhenFull(t *testing.T) {
	ask := counted(memo.New[int, int](1, 3))
	for key := 1; key <= 4; key++ {
		ask(key)
	}
	if _, computed := ask(4); computed != 1 {
		t.Errorf("what filled it was computed %d times", computed)
	}
	if value, computed := ask(1); value != 10 || computed != 2 {
		t.Errorf("what was there before: %d, computed %d times", value, computed)
	}
}

// A value that grew leaves less room for others.
func TestMemo_TakesRoom(t *testing.T) {
	m := memo.New[int, int](1, 3)
	ask := counted(m)
	ask(1)
	m.TakeRoom(2)
	ask(2)
	if _, computed := ask(1); computed != 2 {
		t.Errorf("a value that took all the room was computed %d times", computed)
	}
}

func TestMemo_KeepsAllWhereValuesTakeNoRoom(t *testing.T) {
	ask := counted(memo.New[int, int](0, 0))
	for range 2 {
		for key := range 1000 {
			if _, computed := ask(key); computed != 1 {
				t.Fatalf("%d was computed %d times", key, computed)
			}
		}
	}
}

func TestMemo_ManyAtOnce(t *testing.T) {
	m := memo.New[int, int](1, 10)
	var group sync.WaitGroup
	for from := range 4 {
		group.Go(func() {
			for i := range 1000 {
				key := (from + i) % 20
				if got := m.FindOrCompute(key, func() int { return 10 * key }); got != 10*key {
					t.Errorf("of %d: %d", key, got)
				}
			}
		})
	}
	group.Wait()
}
