-- expect: is declared a second time; the first stands in line 4
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local w = parameter("w", 400*mm)
local v = parameter("w", 400*mm) -- here
