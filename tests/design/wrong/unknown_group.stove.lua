-- expect: "furnance" is not declared; did you mean 'furnace'?
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
group("furnace", {})
piece { number = "1", name = "p", group = "furnance", material = "S235", thickness = 3*mm,  -- here
        face = { outline = rectangle {100*mm, 60*mm} },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
