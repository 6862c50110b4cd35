-- line: flue FILE --house demo/demo.house.lua
-- exit: 2
-- says: give declared { flow, temperature, draught, co2 }
stove { name = "t", title = "Two plates", note = "Invented for a test.",
        duty = { output = 5*kW, refuel = 45*min, efficiency = 0.8, fuel = "beech logs" } }
group("all", { title = "All", explode = { 0*mm, 0*mm, 0*mm } })
local w = parameter("width", 200*mm, { min = 150*mm, max = 300*mm }, "width of the plate")
piece { number = "T-01", name = "plate", group = "all", role = "other", material = "S235", thickness = 4*mm,
        face = { outline = rectangle { w, 400*mm },
                 bends = { { on = "left", height = 120*mm, radius = 6*mm } } },
        place = { at = { 0*mm, 0*mm, 0*mm }, x = "right", y = "up" } }
