-- expect: stands at two places
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local o = polygon { {0*mm, 0*mm, edge = "a"}, {100*mm, 0*mm, edge = "b"}, {100*mm, 60*mm, edge = "a"}, {0*mm, 60*mm} } -- here
piece { number = "1", name = "p", group = "g", material = "S235", thickness = 3*mm, 
        face = { outline = o },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
