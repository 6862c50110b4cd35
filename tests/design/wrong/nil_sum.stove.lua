-- expect: cannot add nothing (nil; is a name misspelt?) and a length (3 mm)
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local t = {}
local a = t.width + 3*mm -- here
