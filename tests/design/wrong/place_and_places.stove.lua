-- expect: are both given
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
piece { number = "1", name = "p", group = "g", material = "S235", thickness = 3*mm,  -- here
        face = { outline = rectangle {100*mm, 60*mm} },
        place = { at = {0*mm, 0*mm, 0*mm} }, places = { { at = {0*mm, 0*mm, 0*mm} } } }
