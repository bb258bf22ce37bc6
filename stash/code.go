package stash

import (
	"context"
	"fmt"
	"hash/fnv"
	"strings"
)

// codeSigns are what a cloth's code is made of: no vowels, so that no word comes
// out, and of signs that look alike one only (no B for 8, I or 1 for L, O or 0 for
// Q, S for 5, Z for 2, G for 6). There are 23, a prime, which the check sign needs.
const codeSigns = "CDFHJKLMNPRTVWXY2345679"

// codeLength is how many signs stand before the check sign, at first.
const codeLength = 3

// crowded is how many codes of one length are tried before a longer one: 12 167 codes
// have three signs, and the more of them are taken the longer a free one would be looked for.
const crowded = 8

// NewCode returns a short code for the label of a new cloth, such as "K7PD", that no
// cloth in the library has, gone ones included. It follows from the cloth's ID, so
// the same library gives the same code.
func NewCode(ctx context.Context, r Reader, cloth ID) (string, error) {
	h := fnv.New64a()
	h.Write(cloth[:])
	for try := range uint64(200) {
		code := codeOf(h.Sum64()>>1+try*7919, codeLength+int(try/crowded))
		taken, err := r.HasCode(ctx, code)
		if err != nil {
			return "", fmt.Errorf("looking for a free code: %w", err)
		}
		if !taken {
			return code, nil
		}
	}
	return "", &Error{Kind: Conflict, What: "No free code was found", Do: "Give the cloth a code of your own"}
}

// codeOf writes n with a number of signs and a check sign after them.
func codeOf(n uint64, signs int) string {
	b := make([]byte, signs, signs+1)
	for i := range b {
		b[i] = codeSigns[n%uint64(len(codeSigns))]
		n /= uint64(len(codeSigns))
	}
	return string(append(b, checkSign(b)))
}

// checkSign returns the sign that makes Σ i·value(sign i) a multiple of 23, where
// the check sign counts once and the sign before it twice. One mistyped sign or two
// exchanged neighbours change the sum, because 23 is a prime (the principle of ISO
// 2108's ten-digit number, ISO 7064).
func checkSign(b []byte) byte {
	sum := 0
	for i, c := range b {
		sum += (len(b) + 1 - i) * strings.IndexByte(codeSigns, c)
	}
	n := len(codeSigns)
	return codeSigns[(n-sum%n)%n]
}

// ReadCode reads a code as a person types it off a label: small letters, blanks and
// hyphens do not matter. ok is false when it is not a code of this program's form, a
// sign mistyped perhaps; a person's own codes are looked up as they stand.
func ReadCode(text string) (code string, ok bool) {
	code = strings.NewReplacer(" ", "", "-", "").Replace(strings.ToUpper(strings.TrimSpace(text)))
	if len(code) < codeLength+1 || len(code) > 20 {
		return code, false
	}
	for i := range len(code) {
		if strings.IndexByte(codeSigns, code[i]) < 0 {
			return code, false
		}
	}
	body := []byte(code[:len(code)-1])
	return code, code[len(code)-1] == checkSign(body)
}
