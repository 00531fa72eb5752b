package belief

import (
	"sync"
	"sync/atomic"
)

// cache keeps what was computed once, for everybody: a value depends on nothing but its
// key, so that keeping it changes no answer. When it is full it begins anew.
type cache[K comparable, V any] struct {
	sync.Mutex
	by map[K]V
	// each is how much room a value takes when it is made, most how much all may take.
	each, most int64
	taken      atomic.Int64
}

func newCache[K comparable, V any](each, most int64) *cache[K, V] {
	return &cache[K, V]{by: map[K]V{}, each: each, most: most}
}

func (c *cache[K, V]) findOrCompute(key K, compute func() V) V {
	c.Lock()
	defer c.Unlock()
	if v, found := c.by[key]; found {
		return v
	}
	if c.taken.Add(c.each) > c.most {
		clear(c.by)
		c.taken.Store(c.each)
	}
	v := compute()
	c.by[key] = v
	return v
}

// takeRoom notes that a value that is kept grew.
func (c *cache[K, V]) takeRoom(more int64) { c.taken.Add(more) }
