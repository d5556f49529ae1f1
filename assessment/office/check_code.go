package office

import (
	"strings"
	"unicode/utf8"

	"wellshown/assessment/fault"
)

// Letters and digits that are not mistaken for one another: Crockford's base 32
// (no I, L, O, U) without its last letter, which leaves a prime number of them.
const codeLetters = "0123456789ABCDEFGHJKMNPQRSTVWXY"

// checkCode is twelve letters: 54 random bits and a check letter, so that a
// mistyped code is told from one that was never issued.
func (o *Office) checkCode() (string, error) {
	code := make([]byte, 0, 12)
	for len(code) < 11 {
		b, err := o.bytes(1)
		if err != nil {
			return "", err
		}
		if b[0] < 248 { // a multiple of 31: no letter is likelier than another
			code = append(code, codeLetters[b[0]%31])
		}
	}
	return string(append(code, checkLetter(code))), nil
}

// checkLetter catches every single wrong letter and every swap of neighbours:
// the weights 1 … 11 and their differences are not 0 modulo the prime 31.
func checkLetter(code []byte) byte {
	sum := 0
	for i, c := range code {
		sum += (i + 1) * strings.IndexByte(codeLetters, c)
	}
	return codeLetters[sum%31]
}

// ReadCode takes a check code as people type it: any case, with or without
// hyphens and spaces, O for 0 and I or L for 1.
func ReadCode(typed string) (string, error) {
	code := strings.NewReplacer("-", "", " ", "", "O", "0", "I", "1", "L", "1").Replace(strings.ToUpper(typed))
	switch n := utf8.RuneCountInString(code); {
	case n != 12:
		return "", fault.Of(fault.Invalid, "This is not a whole check code: it has %d letters and digits, and a code has twelve, such as %s. Look again at the paper.", n, exampleCode)
	case strings.Trim(code, codeLetters) != "":
		return "", fault.Of(fault.Invalid, "This is no check code: it has a sign that none has. A code is twelve letters and digits, without U and Z, such as %s. Look again at the paper.", exampleCode)
	case checkLetter([]byte(code[:11])) != code[11]:
		return "", fault.Of(fault.Invalid, "Something is mistyped in this check code: a letter or digit is wrong, or two have changed places. Look again at the paper.")
	}
	return code, nil
}

// exampleCode shows what a code looks like; its check letter is right.
const exampleCode = "4H7K-9QXM-2TBT"

// ShowCode breaks a code into three groups for reading.
func ShowCode(code string) string {
	if len(code) != 12 {
		return code
	}
	return code[:4] + "-" + code[4:8] + "-" + code[8:]
}
