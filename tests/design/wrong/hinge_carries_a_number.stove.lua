-- expect: but the name of a piece or item is needed
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
piece { number = "1", name = "door", group = "g", material = "S235", thickness = 3*mm,
    face = { outline = rectangle { 100*mm, 100*mm } }, place = { at = { 0*mm, 0*mm, 0*mm }, x = "right", y = "up" } }
hinge { name = "fire door", at = { 0*mm, 0*mm }, opens = 90*deg, carries = { 7*mm } } -- here
