package picture

import (
	"context"
	"sync"
)

// kept is how many decoded pictures a cache holds: that of this scheme and the
// one before, so that undo of a replacement is quick.
const kept = 2

// Cache remembers decoded pictures by the checksum of their file. It may be
// used from several goroutines.
type Cache struct {
	mu   sync.Mutex
	list []*Picture // the last used first
}

// Read is like the function Read, but decodes only what is not held. The file
// itself is always read, since it may have changed.
func (c *Cache) Read(ctx context.Context, path string) (*Picture, error) {
	data, err := load(path)
	if err != nil {
		return nil, named(path, err)
	}
	if p := c.held(sumOf(data)); p != nil {
		return p, nil
	}
	p, err := decode(ctx, data)
	if err != nil {
		return nil, named(path, err)
	}
	c.hold(p)
	return p, nil
}

// held returns a picture that the cache holds, nil for none.
func (c *Cache) held(sum string) *Picture {
	c.mu.Lock()
	defer c.mu.Unlock()
	for i, p := range c.list {
		if p.Sum == sum {
			copy(c.list[1:i+1], c.list[:i])
			c.list[0] = p
			return p
		}
	}
	return nil
}

func (c *Cache) hold(p *Picture) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.list = append([]*Picture{p}, c.list...)
	if len(c.list) > kept {
		c.list = c.list[:kept:kept]
	}
}
