-- expect: but { output = 7*kW
stove { name = "a" } -- here
