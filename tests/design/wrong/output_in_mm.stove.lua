-- expect: is a length (7 mm), but a power is needed
stove { name = "a", duty = { output = 7*mm, refuel = 45*min, efficiency = 0.8 } } -- here
