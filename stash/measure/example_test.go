package measure_test

import (
	"fmt"

	"tallycloth/stash/measure"
)

func ExampleParseLength() {
	l, err := measure.ParseLength("1-1/4 yd", measure.Metre)
	fmt.Println(l == 45*measure.Inch, err)
	_, err = measure.ParseLength("1/0", measure.Inch)
	fmt.Println(err)
	// Output:
	// true <nil>
	// "1/0": there is a zero below the line; write a length such as 1 1/4 yd, 45 in, 1.25 m or 114 cm; a number alone means in
}

func ExampleStyle_Format() {
	l := 47*measure.Inch + 3*measure.Inch/8
	for _, s := range []measure.Style{
		{System: measure.Imperial, Kind: measure.FabricLength},
		{System: measure.Imperial, Kind: measure.Width},
		{System: measure.Metric, Kind: measure.FabricLength},
		{System: measure.Metric, Kind: measure.PieceLength, Comma: true},
	} {
		fmt.Println(s.Format(l))
	}
	// Output:
	// 1 yd 11 3/8 in
	// 47 3/8 in
	// 1.205 m
	// 120,3 cm
}

func ExampleMoney_Split() {
	postage := measure.Money{Minor: 1000, Currency: "EUR"}
	fmt.Println(postage.Split([]int64{2400, 1200, 0}))
	// Output: [6.67 EUR 3.33 EUR 0.00 EUR]
}
