-- expect: is 0 mm, allowed is 0.1 mm to 10000 mm
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local h = hole { at = {20*mm, 30*mm}, d = 0*mm } -- here
