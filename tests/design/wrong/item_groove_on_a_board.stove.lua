-- expect: is for a rope alone
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
item { number = "1", name = "board", group = "g", kind = "board", mass = 1*kg,  -- here
       groove = { depth = 6*mm, width = 14*mm }, place = { at = {0*mm, 0*mm, 0*mm} } }
