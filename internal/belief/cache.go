package belief

import "sync"

// cache keeps what was computed once, for everybody: a value depends on nothing but its
// key, so that keeping it changes no answer. When it is full it begins anew.
type cache[K comparable, V any] struct {
	sync.Mutex
	by   map[K]V
	most int
}

func newCache[K comparable, V any](most int) *cache[K, V] {
	return &cache[K, V]{by: map[K]V{}, most: most}
}

func (c *cache[K, V]) findOrCompute(key K, compute func() V) V {
	c.Lock()
	defer c.Unlock()
	if v, found := c.by[key]; found {
		return v
	}
	if len(c.by) >= c.most {
		clear(c.by)
	}
	v := compute()
	c.by[key] = v
	return v
}
