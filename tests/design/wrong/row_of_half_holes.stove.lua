-- expect: is 2.5, allowed is a whole number
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local h = row { hole { d = 3*mm }, step = {5*mm, 0*mm}, count = 2.5 } -- here
