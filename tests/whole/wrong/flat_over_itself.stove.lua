-- line: sheet FILE --works demo/demo.works.lua
-- exit: 1
-- says: lie on each other in the flat
stove { name = "t", title = "Two plates", note = "Invented for a test.",
        duty = { output = 5*kW, refuel = 45*min, efficiency = 0.8, fuel = "beech logs" } }
group("all", { title = "All", explode = { 0*mm, 0*mm, 0*mm } })
piece { number = "T-01", name = "plate", group = "all", role = "other", material = "S235", thickness = 4*mm,
        face = { outline = polygon { { 0*mm, 0*mm }, { 300*mm, 0*mm }, { 300*mm, 100*mm }, { 100*mm, 100*mm, edge = "inner" },
                                     { 100*mm, 300*mm }, { 0*mm, 300*mm } },
                 bends = { { on = "inner", from = 10*mm, radius = 5*mm, height = 40*mm },
                           { on = "edge 3", from = 20*mm, radius = 5*mm, height = 150*mm } } },
        place = { at = { 0*mm, 0*mm, 0*mm }, x = "right", y = "back" } }
