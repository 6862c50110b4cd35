-- expect: outside its own bounds 340 mm to 520 mm
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local w = parameter("w", 600*mm, { min = 340*mm, max = 520*mm }) -- here
