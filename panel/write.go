package panel

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"strings"
)

// Write writes the panel as a file that reads back the same: tables and keys in the order of the
// reference, parts in their own order, values as they were typed. Remarks (# ...) are not kept.
func (p *Panel) Write(w io.Writer) error {
	var b bytes.Buffer
	b.WriteString("format = 1\n")
	for _, t := range schema {
		if t.path == "option" {
			continue
		}
		for _, pt := range p.parts {
			if pt.table != t.path || (pt.name != "") != t.named {
				continue
			}
			b.WriteString("\n" + header(pt) + "\n")
			for _, k := range t.keys {
				if v, ok := p.values[pt.at(k.name)]; ok {
					b.WriteString(k.name + " = " + v.toml + "\n")
				}
			}
		}
	}
	for i := range p.options {
		p.options[i].write(&b)
	}
	_, err := w.Write(b.Bytes())
	return err
}

func header(pt part) string {
	if pt.name == "" {
		return "[" + pt.table + "]"
	}
	name := pt.name
	if strings.Trim(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") != "" {
		name = quote(name)
	}
	return "[" + pt.table + "." + name + "]"
}

// Digest returns the SHA-256 of the panel as [Panel.Write] writes it, in hexadecimal. Remarks, order
// of tables and spacing do not change it.
func (p *Panel) Digest() string {
	h := sha256.New()
	_ = p.Write(h) // a hash takes everything
	return hex.EncodeToString(h.Sum(nil))
}

// NotUsed lists what is recorded but used by no model yet, each key once, in the order of the
// reference.
func (p *Panel) NotUsed() []string {
	var out []string
	for _, t := range schema {
		for _, k := range t.keys {
			if k.unused && p.anywhere(t, k.name) {
				path := t.path + "." + k.name
				out = append(out, path+": "+k.doc)
			}
		}
	}
	return out
}

func (p *Panel) anywhere(t table, key string) bool {
	for _, pt := range p.parts {
		if pt.table != t.path || (pt.name != "") != t.named {
			continue
		}
		if _, ok := p.values[pt.at(key)]; ok {
			return true
		}
	}
	return false
}
