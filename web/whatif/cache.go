package whatif

import (
	"container/list"
	"sync"
)

// maxCachedBreaks bounds the answers that are kept, in breaks; one takes some 400
// bytes.
const maxCachedBreaks = 40_000

// answerCache keeps the answers asked for last.
type answerCache struct {
	mu     sync.Mutex
	order  *list.List // of keepsake, the last asked first
	byKey  map[string]*list.Element
	weight int
}

// cacheEntry is an answer and how many breaks it weighs.
type cacheEntry struct {
	key    string
	answer any
	weight int
}

func newAnswerCache() *answerCache {
	return &answerCache{order: list.New(), byKey: map[string]*list.Element{}}
}

func (c *answerCache) getAnswer(key string) (answer any, found bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e, found := c.byKey[key]
	if !found {
		return nil, false
	}
	c.order.MoveToFront(e)
	return e.Value.(cacheEntry).answer, true
}

func (c *answerCache) putAnswer(key string, answer any, weight int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if e, found := c.byKey[key]; found {
		c.order.MoveToFront(e)
		return
	}
	c.byKey[key] = c.order.PushFront(cacheEntry{key, answer, weight})
	c.weight += weight
	for c.weight > maxCachedBreaks && c.order.Len() > 1 {
		old := c.order.Remove(c.order.Back()).(cacheEntry)
		delete(c.byKey, old.key)
		c.weight -= old.weight
	}
}
