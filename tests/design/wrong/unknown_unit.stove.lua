-- expect: unknown name 'mmm'; did you mean 'mm'?
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local a = 3*mmm -- here
