-- line: check FILE --works demo/demo.works.lua
-- exit: 1
-- says: run into each other
stove { name = "t", title = "Two plates", note = "Invented for a test.",
        duty = { output = 5*kW, refuel = 45*min, efficiency = 0.8, fuel = "beech logs" } }
group("all", { title = "All", explode = { 0*mm, 0*mm, 0*mm } })
piece { number = "T-01", name = "plate", group = "all", role = "other", material = "S235", thickness = 4*mm,
        face = { outline = rectangle { 200*mm, 150*mm } },
        place = { at = { 0*mm, 0*mm, 0*mm }, x = "right", y = "back" } }
piece { number = "T-02", name = "upright", group = "all", role = "other", material = "S235", thickness = 4*mm,
        face = { outline = rectangle { 200*mm, 150*mm } },
        place = { at = { 0*mm, 50*mm, -20*mm }, x = "right", y = "up" } }
