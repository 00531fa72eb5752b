package store_test

import (
	"testing"

	"breakwright/internal/store/storetest"
)

func TestMain(m *testing.M) { storetest.Main(m) }

// must returns a value or ends the test: must(f())(t).
func must[T any](value T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}
