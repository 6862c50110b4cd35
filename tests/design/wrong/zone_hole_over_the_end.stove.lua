-- expect: over the end of the bent zone
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
piece { number = "1", name = "p", group = "g", material = "S235", thickness = 3*mm,  -- here
        face = { outline = rectangle {100*mm, 60*mm}, bends = { { on = "left", kind = "roll", radius = 50*mm, holes = { { hole { d = 20*mm }, along = 5*mm, angle = 45*deg } } } } },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
