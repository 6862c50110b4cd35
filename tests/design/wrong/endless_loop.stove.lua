-- expect: steps; does a loop never end?
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
while true do end -- here
