-- expect: is given twice: by its name and as value number 1
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local r = rectangle {20*mm, 30*mm, width = 20*mm} -- here
