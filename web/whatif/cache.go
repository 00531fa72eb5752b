package whatif

import (
	"container/list"
	"sync"
)

// mostKept bounds the answers that are kept, in breaks; one takes some 400
// bytes.
const mostKept = 40_000

// cache keeps the answers asked for last.
type cache struct {
	mu     sync.Mutex
	order  *list.List // of keepsake, the last asked first
	byKey  map[string]*list.Element
	weight int
}

// keepsake is an answer and how many breaks it weighs.
type keepsake struct {
	key    string
	answer any
	weight int
}

func newCache() *cache { return &cache{order: list.New(), byKey: map[string]*list.Element{}} }

func (c *cache) get(key string) (answer any, found bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e, found := c.byKey[key]
	if !found {
		return nil, false
	}
	c.order.MoveToFront(e)
	return e.Value.(keepsake).answer, true
}

func (c *cache) put(key string, answer any, weight int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if e, found := c.byKey[key]; found {
		c.order.MoveToFront(e)
		return
	}
	c.byKey[key] = c.order.PushFront(keepsake{key, answer, weight})
	c.weight += weight
	for c.weight > mostKept && c.order.Len() > 1 {
		old := c.order.Remove(c.order.Back()).(keepsake)
		delete(c.byKey, old.key)
		c.weight -= old.weight
	}
}
