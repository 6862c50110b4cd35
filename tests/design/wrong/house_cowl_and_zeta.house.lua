-- expect: is given beside zeta
house { name = "h" }
terminal { cowl = "open", zeta = 1 } -- here
