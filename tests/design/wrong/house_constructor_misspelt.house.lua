-- expect: did you mean 'terminal'?
house { name = "h" }
termnal { cowl = "open" } -- here
