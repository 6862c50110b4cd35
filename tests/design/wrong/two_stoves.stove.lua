-- expect: is described a second time; the first stands in line 2
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
stove { name = "b", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } } -- here
