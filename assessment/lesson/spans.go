package lesson

import (
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// spans reads the words of a node: text, and strong words once deep.
func (r *reader) spans(n ast.Node) (Spans, error) {
	var all Spans
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		e, strong := c.(*ast.Emphasis)
		if !strong {
			said, err := r.words(c)
			if err != nil {
				return nil, err
			}
			all = all.with(said, false)
			continue
		}
		if e.Level != 2 {
			return nil, r.refuse(c)
		}
		for w := e.FirstChild(); w != nil; w = w.NextSibling() {
			said, err := r.words(w)
			if err != nil {
				return nil, err
			}
			all = all.with(said, true)
		}
	}
	return all, nil
}

// with puts words at the end, into the last span where they are said alike.
func (s Spans) with(said string, strong bool) Spans {
	if said == "" {
		return s
	}
	if n := len(s); n > 0 && s[n-1].Strong == strong {
		s[n-1].Text += said
		return s
	}
	return append(s, Span{said, strong})
}

// words is what a piece of text says; where a line of the source ends, a space.
func (r *reader) words(n ast.Node) (string, error) {
	switch t := n.(type) {
	case *ast.Text:
		said := plain(t.Segment.Value(r.src))
		if t.SoftLineBreak() || t.HardLineBreak() {
			said += " "
		}
		return said, nil
	case *ast.String:
		return plain(t.Value), nil
	}
	return "", r.refuse(n)
}

// plain takes backslashes off and reads entities, as Markdown has it.
func plain(said []byte) string {
	return string(util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(said))))
}
