package parts_test

import (
	"testing"

	"example.com/washrig/internal/worked"
)

func TestMain(m *testing.M) { worked.Main(m) }
