package grammar_test

func init() {
	accepted = append(accepted, []struct{ in, canon string }{
		{`slope north 8' to 4' over 5'`, `slope north 96" to 48" over 60"`},
		{`slope down to the north wall from 8' to 4'`, `slope north 96" to 48"`},
		{`bulkhead 16 x 12 along north wall`, `bulkhead 16" x 12" along north`},
		{`soffit 12 deep x 16 wide along the north`, `bulkhead 16" x 12" along north`},
		{`bulkhead along south, 16 x 12`, `bulkhead 16" x 12" along south`},
		{`bulkhead 16 x 12 60 off north`, `bulkhead 16" x 12", 60" off north`},
		{`room stair 12' x 8' slope north 7' to 4'`, `room stair 144" x 96", slope north 84" to 48"`},
		{`north slope up`, `north slope up`},
		{`bulkhead face up`, `bulkhead face up`},
		{`bulkhead up`, `bulkhead bottom up`},
		{`light 4" on north slope 30 off west 41 up`, `light 4", on north slope, 30" off west, 41" up`},
		{`light 4" on the slope 30 off west 41 off north on plan`, `light 4", on slope, 30" off west, 41" off north on plan`},
		{`light 4" on bottom of the bulkhead 30 off west 8 off north`, `light 4", on bulkhead bottom, 30" off west, 8" off north`},
		{`layout north slope`, `layout on north slope`},
		{`layout bulkhead face`, `layout on bulkhead face`},
	}...)
}
