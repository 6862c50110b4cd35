-- expect: is 80, allowed is 0.1 to 1
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 80 } } -- here
