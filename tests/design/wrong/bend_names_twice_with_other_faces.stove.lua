-- expect: is already the name of another face
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
piece { number = "1", name = "p", group = "g", material = "S235", thickness = 3*mm,  -- here
        face = { outline = rectangle {100*mm, 60*mm}, bends = { { on = "left", name = "f", height = 20*mm, face = { name = "one" } }, { on = "right", name = "f", height = 20*mm } } },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
