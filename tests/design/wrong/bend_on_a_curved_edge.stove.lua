-- expect: is curved; a bend needs one straight segment
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
piece { number = "1", name = "p", group = "g", material = "S235", thickness = 3*mm,  -- here
        face = { outline = polygon { {0*mm, 0*mm}, {100*mm, 0*mm, sweep = 90*deg, edge = "arc"}, {0*mm, 60*mm} }, bends = { { on = "arc", height = 30*mm } } },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
