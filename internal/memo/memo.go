// Package memo keeps what was computed once, for everybody who asks again.
package memo

import (
	"sync"
	"sync/atomic"
)

// Memo keeps values by their keys: a value depends on nothing but its key, so that keeping
// it changes no answer. When it is full it begins anew. Many may ask at once.
type Memo[K comparable, V any] struct {
	lock sync.Mutex
	by   map[K]V
	// each is how much room a value takes when it is made, most how much all may take.
	each, most int64
	taken      atomic.Int64
}

// New returns an empty Memo: each is how much room a value takes when it is made, most how
// much all may take, in any unit. Where each is 0 it keeps all.
func New[K comparable, V any](each, most int64) *Memo[K, V] {
	return &Memo[K, V]{by: map[K]V{}, each: each, most: most}
}

// FindOrCompute returns the value of a key, computed when it is not kept.
func (m *Memo[K, V]) FindOrCompute(key K, compute func() V) V {
	m.lock.Lock()
	defer m.lock.Unlock()
	if v, found := m.by[key]; found {
		return v
	}
	if m.taken.Add(m.each) > m.most {
		clear(m.by)
		m.taken.Store(m.each)
	}
	v := compute()
	m.by[key] = v
	return v
}

// TakeRoom notes that a value that is kept grew.
func (m *Memo[K, V]) TakeRoom(more int64) { m.taken.Add(more) }
