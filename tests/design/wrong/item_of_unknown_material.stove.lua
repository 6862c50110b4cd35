-- expect: cannot be found; give mass, or another material
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
item { number = "2", name = "pane", group = "g", kind = "glass", material = "glas-ceramic", shape = rectangle {30*mm, 20*mm}, thickness = 4*mm, place = { at = {0*mm, 0*mm, 0*mm} } } -- here
