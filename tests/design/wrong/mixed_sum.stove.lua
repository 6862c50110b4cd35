-- expect: cannot add a length (40 mm) and a power (6.5 kW)
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local a = 40*mm + 6.5*kW -- here
