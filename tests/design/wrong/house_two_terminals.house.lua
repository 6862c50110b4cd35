-- expect: a second time; a house has one
house { name = "h" }
terminal { cowl = "open" }
terminal { cowl = "open" } -- here
