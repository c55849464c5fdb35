package store_test

func limitedChild(args []string) error   { return nil }
func forbiddenChild(args []string) error { return nil }
