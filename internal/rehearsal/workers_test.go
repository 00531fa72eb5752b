package rehearsal

import (
	"context"
	"reflect"
	"testing"
)

func runRehearsal(t testing.TB, p Options) Report {
	t.Helper()
	r, err := Run(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestRun_SameSeedSameReport(t *testing.T) {
	plan := Options{Students: 3, Sets: 2, Seed: 9}
	alone := runRehearsal(t, plan)
	plan.Workers = 4
	if together := runRehearsal(t, plan); !reflect.DeepEqual(alone, together) {
		t.Errorf("with one worker %+v\nwith four %+v", alone, together)
	}
	plan.Faults = []Fault{Tip}
	if one := runRehearsal(t, plan); !reflect.DeepEqual(one.Rows[0], alone.Rows[2]) {
		t.Errorf("alone %+v\namong all %+v", one.Rows[0], alone.Rows[2])
	}
	plan.Seed = 10
	if other := runRehearsal(t, plan); reflect.DeepEqual(other.Rows[0], alone.Rows[2]) {
		t.Error("another seed gave the same students")
	}
}

func TestAblate_SameSeedSameTable(t *testing.T) {
	plan := Options{Students: 3, Sets: 2, Seed: 9, Faults: []Fault{Place, NoFault}}
	one, err := Ablate(context.Background(), plan)
	plan.Workers = 3
	other, err2 := Ablate(context.Background(), plan)
	if err != nil || err2 != nil || !reflect.DeepEqual(one, other) {
		t.Errorf("%v %v: %+v and %+v", err, err2, one, other)
	}
}
