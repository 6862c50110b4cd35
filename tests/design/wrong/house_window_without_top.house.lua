-- expect: is missing; it is needed here
house { name = "h" }
terminal { cowl = "open", window = { distance = 3*m } } -- here
