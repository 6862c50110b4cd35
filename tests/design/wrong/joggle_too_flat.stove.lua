-- expect: two bends of 45 deg
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
local j = joggle { on = "left", offset = 2*mm } -- here
piece { number = "1", name = "p", group = "g", material = "S235", thickness = 3*mm, 
        face = { outline = rectangle {100*mm, 60*mm}, bends = { j } },
        place = { at = {0*mm, 0*mm, 0*mm}, x = "right", y = "up" } }
