-- expect: it must be more than the width
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local h = slot { at = {20*mm, 30*mm}, length = 5*mm, width = 8*mm } -- here
