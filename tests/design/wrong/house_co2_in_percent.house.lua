-- expect: is 11, allowed is 0.02 to 0.2
house { name = "h" }
declared { co2 = 11 } -- here
