package store

import "testing"

func TestMemoryConforms(t *testing.T) {
	conform(t, func(*testing.T) (one, two Store) {
		m := NewMemory()
		return m, m.Tab()
	})
}
