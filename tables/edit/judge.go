package edit

import (
	"fmt"

	"github.com/BurntSushi/toml"
)

// try takes a changed text where it says what the text said before, changed by want. want gets both: the old one, to be changed, and
// the new one.
func (t *Text) try(src string, want func(was, is map[string]any)) error {
	was, is := map[string]any{}, map[string]any{}
	if _, err := toml.Decode(src, &is); err != nil {
		return fmt.Errorf("this cannot be changed in place: %w", err)
	}
	if _, err := toml.Decode(t.src, &was); err != nil {
		return err
	}
	want(was, is)
	if fmt.Sprintf("%#v", was) != fmt.Sprintf("%#v", is) { // maps in the order of their keys; a NaN is itself
		return fmt.Errorf("this cannot be changed in place without changing something else")
	}
	t.take(src)
	return nil
}

// tableAt finds a table in a document; nil: there is none.
func tableAt(doc map[string]any, path []string) map[string]any {
	for _, p := range path {
		next, ok := doc[p].(map[string]any)
		if !ok {
			return nil
		}
		doc = next
	}
	return doc
}

// with is the change that gives a path a value, making the tables above it.
func with(value any, path []string) func(was, is map[string]any) {
	return func(was, _ map[string]any) {
		for _, p := range path[:len(path)-1] {
			next, ok := was[p].(map[string]any)
			if !ok {
				next = map[string]any{}
				was[p] = next
			}
			was = next
		}
		was[path[len(path)-1]] = value
	}
}

// without is the change that takes a path out. A table above it that only its last key made is gone with that key.
func without(path []string) func(was, is map[string]any) {
	return func(was, is map[string]any) {
		last := len(path) - 1
		delete(tableAt(was, path[:last]), path[last])
		for n := last; n > 0; n-- {
			if len(tableAt(was, path[:n])) == 0 && tableAt(is, path[:n]) == nil {
				delete(tableAt(was, path[:n-1]), path[n-1])
			}
		}
	}
}

// renamed is the change that gives the last name of a path another word.
func renamed(path []string, to string) func(was, is map[string]any) {
	return func(was, _ map[string]any) {
		last := len(path) - 1
		if in := tableAt(was, path[:last]); in != nil {
			in[to] = in[path[last]]
			delete(in, path[last])
		}
	}
}
