-- A small example to start from: a plain steel box with a bent lid and a rolled front shield.
-- Invented for demonstration; not a tested appliance.
-- The language is described in docs/description.md. Every quantity carries its unit.

stove {
    name = "example", title = "Example box", note = "Invented for demonstration; not a tested appliance.",
    duty = { output = 5*kW, refuel = 45*min, efficiency = 0.78, fuel = "beech logs" },
}

-- Parameters may be overridden: stovewright check example.stove.lua --set width=420mm
local W = parameter("width", 400*mm, { min = 300*mm, max = 600*mm }, "outside width of the box")
local D = parameter("depth", 350*mm, { min = 250*mm, max = 500*mm }, "outside depth of the box")
local H = parameter("height", 300*mm, { min = 200*mm, max = 500*mm }, "height of the walls")
local t = 3*mm          -- sheet
local r = 4*mm          -- inside radius the 25 mm die makes: about 0.16 of its opening

group("box", { title = "Box", explode = { 0*mm, 0*mm, 0*mm } })
group("lid", { title = "Lid", explode = { 0*mm, 0*mm, 150*mm } })
group("shield", { title = "Front shield", explode = { 0*mm, -150*mm, 0*mm } })

-- The floor lies flat; its origin is the front left corner. "front side" looks up.
piece {
    number = "E-01", name = "floor", group = "box", role = "firebox wall", material = "S235", thickness = t,
    face = {
        outline = rectangle { W, D },
        holes = { grid { slot { at = { W/2 - 60*mm, D/2 - 40*mm }, length = 60*mm, width = 8*mm }, step_x = 120*mm, step_y = 40*mm, count_x = 2, count_y = 3 } },
    },
    place = { at = { -W/2, 0*mm, 0*mm }, x = "right", y = "back", surface = "rear" },
}

-- One wall goes round three sides: the back with two bent sides. Its dimensions are outside ones.
piece {
    number = "E-02", name = "back and sides", group = "box", role = "firebox wall", material = "S235", thickness = t,
    face = {
        outline = rectangle { W, H },
        bends = {
            { on = "left", angle = -90*deg, radius = r, height = D, name = "left side" },
            { on = "right", angle = -90*deg, radius = r, height = D, name = "right side" },
        },
    },
    -- Seen from the front: x to the right, y up, so the front side looks to the viewer; the sides fold away from it
    -- (minus) when the back stands at the front edge, so turn it round: x to the left puts the viewer behind the stove.
    place = { at = { W/2, D, t }, x = "left", y = "up", surface = "front" },
}

-- The lid: a plate with four flanges down. Corners stay open by the gap.
piece {
    number = "E-03", name = "lid", group = "lid", role = "shell", material = "S235", thickness = 2*mm,
    face = {
        outline = rectangle { W + 8*mm, D + 8*mm },
        holes = { hole { at = { W/2 + 4*mm, D/2 + 4*mm }, d = 120*mm } },
        bends = {
            { on = "left", angle = -90*deg, radius = 2.6*mm, height = 20*mm, gap_start = 1*mm, gap_end = 1*mm },
            { on = "right", angle = -90*deg, radius = 2.6*mm, height = 20*mm, gap_start = 1*mm, gap_end = 1*mm },
            { on = "bottom", angle = -90*deg, radius = 2.6*mm, height = 20*mm, gap_start = 1*mm, gap_end = 1*mm },
            { on = "top", angle = -90*deg, radius = 2.6*mm, height = 20*mm, gap_start = 1*mm, gap_end = 1*mm },
        },
    },
    place = { at = { -W/2 - 4*mm, -4*mm, t + H }, x = "right", y = "back", surface = "rear" },
}

-- A curved shield in front of the box: a flat strip, then a rolled zone of 60 degrees, then a flat strip.
piece {
    number = "E-04", name = "shield", group = "shield", role = "shell", material = "S235", thickness = 2*mm,
    face = {
        outline = rectangle { 30*mm, H - 60*mm },
        bends = {
            { on = "right", kind = "roll", radius = 240*mm, angle = 60*deg, name = "curve",
              holes = { { slot { at = { 0*mm, 0*mm }, length = 80*mm, width = 10*mm }, along = H/2 - 30*mm, angle = 30*deg } },
              face = { name = "right strip", bends = { { on = "tip", kind = "roll", radius = 240*mm, angle = 5*deg, name = "end curve" } } } },
        },
    },
    place = { at = { -140*mm, -40*mm, t + 30*mm }, x = "right", y = "up", surface = "rear", turn = { axis = "up", angle = -30*deg } },
}

item { number = "E-20", name = "floor board", group = "box", role = "lining", kind = "board", material = "vermiculite board",
       shape = rectangle { W - 20*mm, D - 80*mm }, thickness = 25*mm,
       place = { at = { -W/2 + 10*mm, 30*mm, t + 1*mm }, x = "right", y = "back" } }

joint { name = "floor to back", kind = "tee", seam = "fillet", throat = 2*mm, gap = 0.5*mm, tight = true,
        a = { "back and sides", edge = "bottom" }, b = { "floor", face = "main" } }
