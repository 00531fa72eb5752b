package record_test

import (
	"testing"

	"breakwright/internal/store/storetest"
)

func TestMain(m *testing.M) { storetest.Main(m) }
