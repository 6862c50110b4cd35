-- expect: is missing
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local h = row { hole { at = {20*mm, 30*mm}, d = 3*mm }, step = {5*mm, 0*mm} } -- here
