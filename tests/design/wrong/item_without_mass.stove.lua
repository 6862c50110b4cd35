-- expect: give mass, or shape and thickness
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
item { number = "2", name = "glass", group = "g", kind = "glass", material = "glass-ceramic", place = { at = {0*mm, 0*mm, 0*mm} } } -- here
