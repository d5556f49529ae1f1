package scan

// number is the new number of an object, which is copied in its turn.
func (c *pdfCopy) number(old int) int {
	if n, known := c.numbers[old]; known {
		return n
	}
	c.out = append(c.out, nil)
	c.numbers[old] = len(c.out)
	c.waiting = append(c.waiting, old)
	return len(c.out)
}

// stream copies what is drawn as it is, and a photo within it without what its
// camera wrote beside it. Data that lies in another file is refused, and a kind of
// picture that may carry words which nobody here can read.
func (c *pdfCopy) stream(s pdfStream) (any, error) {
	filters, ok := filtersOf(s.dict)
	if !ok {
		return nil, errPDF
	}
	dict, err := c.dict(s.dict, 0)
	if err != nil {
		return nil, err
	}
	data := s.data
	for i, name := range filters {
		last := i == len(filters)-1
		switch {
		case name == "JPXDecode" || name == "Crypt":
			return nil, errPDF
		case name != "DCTDecode" && name != "DCT":
			continue
		case !last || i > 1 || i == 1 && filters[0] != "FlateDecode":
			return nil, errPDF
		}
		if i == 1 {
			if data, err = c.from.inflate(data); err != nil {
				return nil, err
			}
			delete(dict, "DecodeParms")
		}
		if data, err = bare(data); err != nil {
			return nil, err
		}
		dict["Filter"] = pdfName("DCTDecode")
	}
	return pdfStream{dict, data}, nil
}
