-- expect: unknown name 'recttangle'; did you mean 'rectangle'?
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local o = recttangle {3*mm, 4*mm} -- here
