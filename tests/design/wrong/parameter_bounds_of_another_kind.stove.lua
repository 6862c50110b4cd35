-- expect: but the same kind as the value is needed
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local w = parameter("w", 400*mm, { min = 3*kg }) -- here
