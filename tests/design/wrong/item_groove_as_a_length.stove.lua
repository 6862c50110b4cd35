-- expect: but a table is needed
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
item { number = "1", name = "seal", group = "g", kind = "rope", mass = 0.1*kg,  -- here
       d = 10*mm, groove = 6*mm, joint = 1*mm, place = { at = {0*mm, 0*mm, 0*mm} } }
