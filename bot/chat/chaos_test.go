package chat_test

func child(dir string) int { return 0 }
