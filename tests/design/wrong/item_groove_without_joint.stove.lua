-- expect: a rope in a groove needs d, groove and joint
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
item { number = "1", name = "seal", group = "g", kind = "rope", mass = 0.1*kg,  -- here
       d = 10*mm, groove = { depth = 6*mm, width = 14*mm }, place = { at = {0*mm, 0*mm, 0*mm} } }
