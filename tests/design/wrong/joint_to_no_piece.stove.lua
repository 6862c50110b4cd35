-- expect: "w" is no piece of this stove
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
piece { number = "1", name = "p", group = "g", material = "S235", thickness = 3*mm, 
        face = { outline = rectangle {100*mm, 60*mm} },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
piece { number = "2", name = "q", group = "g", material = "S235", thickness = 3*mm, 
        face = { outline = rectangle {100*mm, 60*mm} },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
joint { name = "j", kind = "tee", a = { "p", edge = "left" }, b = { "w" } } -- here
