package reports

// pageSize is the paper that a document is printed on.
type pageSize uint8

const (
	letter pageSize = iota // 8.5 by 11 inches
	a4
)

// layout is where things lie on every page of a paper, in points from the top
// left corner. Left of the margin line stands the one thing to scan, right of it
// stand the words.
type layout struct {
	width, height float64
	labelLeft     float64
	labelRight    float64
	line          float64 // the margin line
	left, right   float64 // the words
	top, bottom   float64 // of what a document puts on a page
	foot          float64 // where the foot begins
	end           float64 // where the margin line ends
}

const runningHead = 30 // height of the running head of the second page and on

func layOut(size pageSize, landscape bool) layout {
	w, h := 612.0, 792.0
	if size == a4 {
		w, h = 595.28, 841.89
	}
	if landscape {
		w, h = h, w
	}
	l := layout{width: w, height: h, labelLeft: 19, labelRight: 83, line: 95, left: 113, right: w - 50, top: 50, end: h - 40}
	l.foot, l.bottom = l.end, l.end
	return l
}

// room is the width of the words.
func (l layout) room() float64 { return l.right - l.left }
