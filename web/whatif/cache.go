package whatif

import (
	"container/list"
	"sync"

	"breakwright/internal/whatif"
)

// mostKept bounds the answers that are kept, in breaks; one takes some 400
// bytes.
const mostKept = 40_000

// cache keeps the answers asked for last.
type cache struct {
	mu     sync.Mutex
	order  *list.List // of whatif.Answer, the last asked first
	byKey  map[string]*list.Element
	breaks int
}

func newCache() *cache { return &cache{order: list.New(), byKey: map[string]*list.Element{}} }

func (c *cache) get(key string) (whatif.Answer, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e, found := c.byKey[key]
	if !found {
		return whatif.Answer{}, false
	}
	c.order.MoveToFront(e)
	return e.Value.(whatif.Answer), true
}

func (c *cache) put(a whatif.Answer) {
	c.mu.Lock()
	defer c.mu.Unlock()
	key := a.Question.Key()
	if e, found := c.byKey[key]; found {
		c.order.MoveToFront(e)
		return
	}
	c.byKey[key] = c.order.PushFront(a)
	c.breaks += len(a.Breaks)
	for c.breaks > mostKept && c.order.Len() > 1 {
		last := c.order.Back()
		old := c.order.Remove(last).(whatif.Answer)
		delete(c.byKey, old.Question.Key())
		c.breaks -= len(old.Breaks)
	}
}
