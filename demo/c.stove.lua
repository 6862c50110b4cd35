-- Invented for demonstration; not a tested appliance.
--
-- Stove c: a flat-sided heater of 8 kW with an oven above the fire. The furnace is one welded box: ash chamber,
-- firebox, and over it a steel oven that the gas flows round: under its bottom, up both sides, forward over its lid
-- and back between two guides to the flue. A bright liner slides into the oven and can be taken out for washing.
-- The front plate carries the three doors and closes the shell. The doors' fronts lie in y = 0.

stove { name = "c", title = "Heater with oven 8 kW",
        note = "Invented for demonstration; not a tested appliance.",
        duty = { output = 8*kW, refuel = 50*min, efficiency = 0.75, fuel = "beech logs" } }

local W = parameter("firebox_width", 400*mm, { min = 340*mm, max = 480*mm }, "clear width between the steel side walls")
local DP = parameter("firebox_depth", 340*mm, { min = 300*mm, max = 400*mm }, "front plate to back wall, inside")
local FH = parameter("firebox_height", 380*mm, { min = 320*mm, max = 420*mm }, "grate floor to oven bottom")
local OH = parameter("oven_height", 220*mm, { min = 180*mm, max = 260*mm }, "clear height in the oven, about")
local GAS = parameter("gas_way", 40*mm, { min = 30*mm, max = 50*mm }, "width of the gas way beside and over the oven")
local ASH = parameter("ash_height", 110*mm, { min = 100*mm, max = 140*mm }, "height of the ash chamber")
local GAP = parameter("shell_gap", 40*mm, { min = 30*mm, max = 60*mm }, "furnace wall to shell")
local FEET = parameter("foot_height", 80*mm, { min = 60*mm, max = 120*mm }, "floor to base")
local ROPE = parameter("door_rope", 12*mm, { min = 10*mm, max = 14*mm }, "diameter of the door ropes")
local FLUE = parameter("flue_diameter", 150*mm, { min = 130*mm, max = 150*mm }, "inside diameter of the flue tube")
local LIN = parameter("lining", 30*mm, { min = 25*mm, max = 30*mm }, "thickness of the lining boards")

-- sheets; inside radii that the press dies make and DIN 6935 allows along the rolling direction too
local t2, t3, t4, t6, t_liner = 2*mm, 3*mm, 4*mm, 6*mm, 1.5*mm
local r2, r3, r4, r_liner = 3*mm, 5*mm, 6*mm, 4*mm
local O = 0*mm

-- depths (y, to the back)
local door_depth = 32*mm                      -- door pans reach back to here
local y0 = door_depth + 4*mm                  -- front of the front plate
local y1 = y0 + t4                            -- its back: the furnace begins
local yb = y1 + DP                            -- inside of the back wall
local yw = yb + 25*mm                         -- back ends of walls and of the back wall's flanges
local ys = yw + GAP                           -- shell's rear flanges end here; the rear panel lies on them
local bed_y = y0 - 0.75*ROPE                  -- what the rope lies on, in each door: it is pressed by a quarter

-- heights (z)
local zb = FEET + t4                          -- top of the bottom plate: walls stand here
local zg = zb + ASH                           -- underside of the grate floor
local zf = zg + t4                            -- its top
local zo0 = zf + FH                           -- underside of the oven
local oven_h = OH + 10*mm                     -- outside height of the oven
local zo1 = zo0 + oven_h
local zr = zo1 + GAS                          -- underside of the furnace roof
local roof_top = zr + t4
local zt = roof_top + 55*mm                   -- underside of the top plate

-- widths (x); everything is alike left and right
local half = W/2                              -- inside of the side walls
local shell_x = half + t4 + GAP + t2          -- outside of the shell
local oven_w = W - 2*GAS                      -- outside width of the oven

-- ---- small helpers ------------------------------------------------------------------------------------------

-- lies at height z
local function flat(x, y, z) return { at = { x, y, z }, x = "right", y = "back", surface = "rear" } end
-- its front at y
local function front(x, y, z) return { at = { x, y, z }, x = "right", y = "up", surface = "front" } end
-- its back at y
local function back(x, y, z) return { at = { x, y, z }, x = "right", y = "up", surface = "rear" } end
local function box(x0, z0, x1, z1, corner) return rectangle { x1 - x0, z1 - z0, at = { x0, z0 }, corner = corner } end

-- ---- subassemblies ------------------------------------------------------------------------------------------

group("base", { title = "Base and feet", explode = { O, O, -300*mm } })
group("furnace", { title = "Furnace", explode = { O, O, O } })
group("front", { title = "Front plate", explode = { O, -250*mm, O } })
group("oven", { title = "Oven", explode = { O, -150*mm, 450*mm } })
group("liner", { title = "Oven liner and shelves", explode = { O, -800*mm, 450*mm } })
group("air", { title = "Air ways", explode = { -450*mm, O, O } })
group("lining", { title = "Lining and grate", explode = { 500*mm, O, O } })
group("doors", { title = "Doors", explode = { O, -500*mm, O } })
group("shell", { title = "Shell", explode = { O, 450*mm, 100*mm } })
group("top", { title = "Roof, flue and top", explode = { O, O, 850*mm } })

-- ---- openings of the front plate, left to right alike -----------------------------------------------------------

local seat = 26*mm                            -- doors overlap their openings by this, the rope lies in the middle
local gates = {
    ash = { x = half - 45*mm, z0 = zb + 22*mm, z1 = zg - 25*mm },
    fire = { x = half - 45*mm, z0 = zf + 60*mm, z1 = zo0 - 60*mm },
    oven = { x = oven_w/2 - t3, z0 = zo0 + t3, z1 = zo1 - t3 } }
local order = { "ash", "fire", "oven" }

-- ---- furnace ------------------------------------------------------------------------------------------------

local wall_h, wall_l = zr - zb, yw - y1
local inlet_y = y1 + DP/2
local over = half + t4 + 5*mm                 -- bottom and roof stand out 5 mm for the seam
piece { number = "C-01", name = "bottom plate", group = "furnace", role = "firebox wall", material = "S235",
        thickness = t4,
        face = { outline = rectangle { 2*over, wall_l + 5*mm, at = { -over, O } },
                 holes = { hole { at = { O, inlet_y - y1 }, d = 90*mm } } },
        place = flat(O, y1, FEET) }

-- side wall: three tabs on the front edge go through the front plate
local tab_l = 30*mm
local tabs = { ASH + 19*mm, zo0 - 31*mm - zb, zo0 + oven_h/2 - 40*mm - zb } -- between the doors' lugs
local wall_outline = { { O, O, edge = "bottom" }, { wall_l, O, edge = "back" }, { wall_l, wall_h, edge = "top" },
        { O, wall_h, edge = "front 4" } }
for i = 3, 1, -1 do
    local top_, low = tabs[i] + tab_l/2, tabs[i] - tab_l/2
    for _, p in ipairs { { O, top_ }, { -t4, top_, edge = "tab " .. i }, { -t4, low },
            { O, low, edge = "front " .. i } } do
        wall_outline[#wall_outline + 1] = p
    end
end
piece { number = "C-02", name = "left wall", group = "furnace", role = "firebox wall", material = "S235",
        thickness = t4,
        face = { outline = polygon(wall_outline) },
        place = { at = { -half, y1, zb }, x = "back", y = "up", surface = "front" } }
mirror("left wall", { number = "C-03", name = "right wall", plane = "x", at = O })

-- back wall: its flanges point backwards and lie inside the side walls; the seam is at their tips, away from the fire
local back_w = W - 0.4*mm
piece { number = "C-04", name = "back wall", group = "furnace", role = "firebox wall", material = "S235",
        thickness = t4,
        face = { outline = rectangle { back_w, wall_h },
                 bends = { { on = "left", name = "left flange", angle = -90*deg, radius = r4, height = yw - yb },
                           { on = "right", name = "right flange", angle = -90*deg, radius = r4, height = yw - yb } } },
        place = front(-back_w/2, yb, zb) }

-- grate floor: parts ash chamber and firebox; corner holes feed the wash ducts, the slot behind feeds the rear jets
local duct_x, duct_y = 38*mm, 30*mm
local jet_w, jet_d = 80*mm, 25*mm
local grate_w, grate_d = 200*mm, 150*mm
local floor_x = half - 0.2*mm
local grate_y = DP/2                          -- middle of the grate, from the front plate
piece { number = "C-05", name = "grate floor", group = "furnace", role = "firebox wall", material = "S235",
        thickness = t4,
        face = { outline = polygon { { -floor_x, 0.2*mm, edge = "front" }, { floor_x, 0.2*mm, edge = "right" },
                                     { floor_x, DP - 0.2*mm, edge = "right ear" },
                                             { half - 13*mm, DP - 0.2*mm, edge = "back" },
                                     { 13*mm - half, DP - 0.2*mm, edge = "left ear" },
                                             { -floor_x, DP - 0.2*mm, edge = "left" } },
                 holes = { window { outline = box(-grate_w/2 - 3*mm, grate_y - grate_d/2 - 3*mm, grate_w/2 + 3*mm,
                         grate_y + grate_d/2 + 3*mm, 4*mm) },
                           slot { at = { duct_x/2 - half, 17*mm }, length = 26*mm, width = 18*mm },
                                   slot { at = { half - duct_x/2, 17*mm }, length = 26*mm, width = 18*mm },
                           slot { at = { O, DP - jet_d/2 + 1*mm }, length = jet_w - 20*mm, width = 14*mm } } },
        place = flat(O, y1, zg) }
piece { number = "C-06", name = "grate seat", group = "furnace", role = "grate seat", material = "S235", thickness = t4,
        face = { outline = box(-grate_w/2 - 25*mm, grate_y - grate_d/2 - 25*mm, grate_w/2 + 25*mm,
                grate_y + grate_d/2 + 25*mm),
                 holes = { window { outline = box(-grate_w/2 + 8*mm, grate_y - grate_d/2 + 8*mm, grate_w/2 - 8*mm,
                         grate_y + grate_d/2 - 8*mm, 4*mm) } } },
        place = flat(O, y1, zg - t4) }

-- rails on the side walls: two under the grate floor, two under the baffle
local rail_l, baffle_z = 120*mm, zo0 - 49*mm
local function rail(z)
    return { at = { -half + 25*mm, yb - 20*mm - rail_l, z }, x = "back", y = "left", surface = "front" },
           { at = { half - 25*mm, yb - 20*mm, z }, x = "front", y = "right", surface = "front" }
end
local rail_1, rail_2 = rail(zg)
local rail_3, rail_4 = rail(baffle_z)
piece { number = "C-07", name = "wall rail", group = "furnace", role = "other", material = "S235", thickness = t3,
        face = { outline = rectangle { rail_l, 25*mm },
                 bends = { { on = "top", name = "leg", angle = -90*deg, radius = r3, height = 25*mm } } },
        places = { rail_1, rail_2, rail_3, rail_4 } }

-- baffle: shields the oven bottom; flames turn round its front lip
local baffle_front = y1 + 120*mm
piece { number = "C-08", name = "baffle", group = "furnace", role = "baffle", material = "S235", thickness = t4,
        face = { outline = rectangle { W - 3*mm, yb - 1*mm - baffle_front },
                 bends = { { on = "bottom", name = "lip", angle = -90*deg, radius = r4, height = 28*mm } } },
        place = flat(1.5*mm - half, baffle_front, baffle_z) }

-- log bar: loose, keeps logs from the glass
local bar_w = W - 2*duct_x - 6*mm
piece { number = "C-09", name = "log bar", group = "furnace", role = "other", material = "S235", thickness = t3,
        flip = true,
        face = { outline = rectangle { bar_w, 72*mm },
                 holes = { row { slot { at = { 40*mm, 40*mm }, length = 40*mm, width = 8*mm, turn = 90*deg },
                         step = { (bar_w - 80*mm)/8, O }, count = 9 } },
                 bends = { { on = "left", name = "left wing", angle = -90*deg, radius = r3, height = 25*mm },
                           { on = "right", name = "right wing", angle = -90*deg, radius = r3, height = 25*mm } } },
        place = front(-bar_w/2, y1 + 4*mm, zf + LIN) }

-- ---- front plate ----------------------------------------------------------------------------------------------

local front_holes = {}
for _, name in ipairs(order) do
    local g_ = gates[name]
    front_holes[#front_holes + 1] = window { outline = box(-g_.x, g_.z0, g_.x, g_.z1, 6*mm) }
end
for _, at_ in ipairs(tabs) do
    for _, side in ipairs { -1, 1 } do
        front_holes[#front_holes + 1] = window { outline = rectangle { t4 + 0.5*mm, tab_l + 0.5*mm,
                at = { -t4/2 - 0.25*mm, -tab_l/2 - 0.25*mm } },
                                                 at = { side*(half + t4/2), zb + at_ } }
    end
end
-- the air slide's tongue
front_holes[#front_holes + 1] = window { outline = box(-16*mm, FEET - 11*mm, 16*mm, FEET - 5*mm, 2*mm) }
piece { number = "C-10", name = "front plate", group = "front", role = "firebox wall", material = "S235",
        thickness = t4,
        face = { outline = box(-shell_x, FEET - 30*mm, shell_x, zt, O), holes = front_holes },
        place = front(O, y0, O) }

-- ---- oven ---------------------------------------------------------------------------------------------------

local oven_l = DP - 3*mm
piece { number = "C-20", name = "oven wrap", group = "oven", role = "oven", material = "S235", thickness = t3,
        face = { outline = rectangle { oven_w, oven_l },
                 bends = { { on = "left", name = "left side", radius = r3, height = oven_h - t3 },
                           { on = "right", name = "right side", radius = r3, height = oven_h - t3 } } },
        place = flat(-oven_w/2, y1, zo0) }
local ob = oven_w/2 - t3 - 0.2*mm
piece { number = "C-21", name = "oven back", group = "oven", role = "oven", material = "S235", thickness = t3,
        flip = true,
        face = { outline = polygon { { -ob, O, round = 6*mm, edge = "bottom" }, { ob, O, round = 6*mm, edge = "right" },
                                     { ob, oven_h - 2*t3 - 0.2*mm, edge = "top" },
                                             { -ob, oven_h - 2*t3 - 0.2*mm, edge = "left" } } },
        place = back(O, y1 + oven_l, zo0 + t3 + 0.2*mm) }
piece { number = "C-22", name = "oven lid", group = "oven", role = "oven", material = "S235", thickness = t3,
        face = { outline = rectangle { oven_w, oven_l } },
        place = flat(-oven_w/2, y1, zo1 - t3) }
-- guides between oven lid and roof: the gas first flows forward, then back to the flue
local guide_x, guide_l = FLUE/2 + 14*mm, DP - 100*mm
piece { number = "C-23", name = "gas guide", group = "oven", role = "baffle", material = "S235", thickness = t3,
        flip = true,
        face = { outline = rectangle { guide_l, GAS - 1*mm } },
        places = { { at = { -guide_x, yb - 4*mm - guide_l, zo1 }, x = "back", y = "up" },
                { at = { guide_x, yb - 4*mm - guide_l, zo1 }, x = "back", y = "up" } } }

-- liner of stainless sheet: bottom, sides and back in one, 0.5 mm free all round; rails and two shelves in it
local liner_y, liner_w = y0 + 16*mm, oven_w - 2*t3 - 1*mm
local liner_l, liner_h = y1 + oven_l - t3 - 0.5*mm - liner_y, oven_h - 2*t3 - 2*mm
local liner_z = zo0 + t3 + 0.3*mm
piece { number = "C-24", name = "oven liner", group = "liner", role = "oven", material = "1.4301", thickness = t_liner,
        face = { outline = rectangle { liner_w, liner_l },
                 bends = { { on = "left", name = "left side", radius = r_liner, height = liner_h },
                           { on = "right", name = "right side", radius = r_liner, height = liner_h },
                           { on = "top", name = "back", radius = r_liner, height = liner_h } } },
        place = flat(-liner_w/2, liner_y, liner_z) }
local shelf_w, shelf_l = liner_w - 2*t_liner - 4*mm, liner_l - 40*mm
local srail_l = shelf_l - 30*mm
local srails, shelves = {}, {}
for i, share in ipairs { 0.35, 0.68 } do
    local z = liner_z + t_liner + share*OH
    local x, y = liner_w/2 - t_liner, liner_y + 25*mm
    srails[2*i - 1] = { at = { 14*mm - x, y, z }, x = "back", y = "left", surface = "front" }
    srails[2*i] = { at = { x - 14*mm, y + srail_l, z }, x = "front", y = "right", surface = "front" }
    shelves[i] = flat(-shelf_w/2, liner_y + 10*mm, z)
end
piece { number = "C-25", name = "shelf rail", group = "liner", role = "oven", material = "1.4301", thickness = t_liner,
        face = { outline = rectangle { srail_l, 14*mm },
                 bends = { { on = "top", name = "leg", angle = -90*deg, radius = r_liner, height = 14*mm } } },
        places = srails }
piece { number = "C-26", name = "shelf", group = "liner", role = "oven", material = "1.4301", thickness = t_liner,
        face = { outline = rectangle { shelf_w, shelf_l },
                 holes = { grid { slot { at = { shelf_w/2 - 0.4*shelf_w + 0.1*shelf_w, 40*mm }, length = 0.16*shelf_w,
                         width = 8*mm },
                           step_x = 0.2*shelf_w, step_y = (shelf_l - 80*mm)/8, count_x = 4, count_y = 9 } },
                 bends = { { on = "bottom", name = "front lip", angle = -90*deg, radius = r_liner, height = 15*mm },
                           { on = "top", name = "back lip", angle = -90*deg, radius = r_liner, height = 15*mm } } },
        places = shelves }

-- ---- air ways -----------------------------------------------------------------------------------------------

-- wash channel under the oven: its floor leaves a slot to the front plate that blows down the glass
local wash_d, wash_slot, wash_h, wash_w = 45*mm, 2.5*mm, 54*mm, W - 0.4*mm
local wash_z = zo0 - 2*mm - wash_h
local duct_hole_y = wash_d - r2 - t2 - 17*mm
piece { number = "C-30", name = "wash channel", group = "air", role = "air way", material = "S235", thickness = t2,
        face = { outline = rectangle { wash_w, wash_h },
                 bends = { { on = "bottom", name = "floor", radius = r2, height = wash_d - wash_slot,
                             face = { holes = { slot { at = { duct_x/2, duct_hole_y }, length = 26*mm, width = 18*mm },
                                     slot { at = { wash_w - duct_x/2, duct_hole_y }, length = 26*mm,
                                             width = 18*mm } } } },
                           { on = "top", name = "lid", radius = r2, height = wash_d } } },
        place = back(-wash_w/2, y1 + wash_d, wash_z) }
-- ducts in the front corners bring wash air up from the ash chamber
piece { number = "C-31", name = "left duct", group = "air", role = "air way", material = "S235", thickness = t2,
        face = { outline = rectangle { duct_x, wash_z - zf },
                 bends = { { on = "right", name = "leg", radius = r2, height = duct_y } } },
        place = back(-half, y1 + duct_y, zf) }
mirror("left duct", { number = "C-32", name = "right duct", plane = "x", at = O })
-- rear jet channel on the back wall
local jet_h = 0.55*FH
piece { number = "C-33", name = "jet channel", group = "air", role = "air way", material = "S235", thickness = t2,
        face = { outline = rectangle { jet_w, jet_h },
                 holes = { grid { hole { at = { jet_w/2 - 15*mm, 0.45*jet_h }, d = 6*mm }, step_x = 30*mm,
                         step_y = 0.11*jet_h, count_x = 2, count_y = 4 } },
                 bends = { { on = "left", name = "left leg", angle = -90*deg, radius = r2, height = jet_d },
                           { on = "right", name = "right leg", angle = -90*deg, radius = r2, height = jet_d },
                           { on = "top", name = "lid", angle = -90*deg, radius = r2, height = jet_d - 0.3*mm } } },
        place = front(-jet_w/2, yb - jet_d, zf) }
-- air slide under the base pan; its tongue comes out below the ash door
local slide = 55*mm
local tongue = 12*mm - inlet_y
piece { number = "C-34", name = "air slide", group = "air", role = "air control", material = "S235", thickness = t2,
        flip = true,
        face = { outline = polygon { { -13*mm, tongue, round = 6*mm }, { 13*mm, tongue, round = 6*mm },
                { 13*mm, -slide, round = 4*mm },
                                     { slide, -slide, round = 3*mm }, { slide, slide, round = 3*mm },
                                             { -slide, slide, round = 3*mm },
                                     { -slide, -slide, round = 3*mm }, { -13*mm, -slide, round = 4*mm } },
                 holes = { hole { at = { O, tongue + 9*mm }, d = 5.5*mm } } },
        place = flat(O, inlet_y, FEET - t3 - t6 + 0.5*mm) }
local strip_l = 130*mm
local function pair(z)
    return { { at = { -slide - 1*mm, inlet_y, z }, x = "left", y = "front", surface = "rear" },
             { at = { slide + 1*mm, inlet_y, z }, x = "right", y = "back", surface = "rear" } }
end
local strip_holes = { row { hole { at = { 10*mm, 14*mm - strip_l/2 }, d = 6.5*mm }, step = { O, strip_l - 28*mm },
        count = 2 } }
piece { number = "C-35", name = "slide spacer", group = "air", role = "other", material = "S235", thickness = t6,
        flip = true,
        face = { outline = rectangle { 20*mm, strip_l, at = { O, -strip_l/2 } }, holes = strip_holes },
        places = pair(FEET - t3 - t6) }
piece { number = "C-36", name = "slide keeper", group = "air", role = "other", material = "S235", thickness = t2,
        flip = true,
        face = { outline = rectangle { 30*mm, strip_l, at = { -10*mm, -strip_l/2 } }, holes = strip_holes },
        places = pair(FEET - t3 - t6 - t2) }

-- ---- ash pan ------------------------------------------------------------------------------------------------

local pan_w, pan_l, pan_z = W - 110*mm, DP - 30*mm, zb + 25*mm
piece { number = "C-40", name = "ash pan", group = "furnace", role = "ash pan", material = "S235", thickness = t2,
        flip = true,
        face = { outline = rectangle { pan_w, pan_l },
                 bends = { { on = "bottom", name = "front", radius = r2, height = ASH - 59*mm },
                           { on = "right", name = "right side", radius = r2, height = ASH - 59*mm },
                           { on = "top", name = "back", radius = r2, height = ASH - 59*mm },
                           { on = "left", name = "left side", radius = r2, height = ASH - 59*mm } } },
        place = flat(-pan_w/2, y1 + 8*mm, pan_z) }
piece { number = "C-41", name = "pan rail", group = "furnace", role = "other", material = "S235", thickness = t2,
        face = { outline = rectangle { pan_l, 24*mm },
                 bends = { { on = "top", name = "leg", angle = -90*deg, radius = r2, height = pan_z - zb } } },
        places = { { at = { -pan_w/2 + 20*mm, y1 + 8*mm, pan_z }, x = "back", y = "left", surface = "front" },
                   { at = { pan_w/2 - 20*mm, y1 + 8*mm + pan_l, pan_z }, x = "front", y = "right",
                           surface = "front" } } }

-- ---- base and shell -----------------------------------------------------------------------------------------

local base_d = ys + t2 - y1
local lip = 30*mm
local base_holes = { hole { at = { O, inlet_y - y1 }, d = 80*mm } }
for _, x in ipairs { -1, 1 } do -- screws of the slide strips
    for _, y in ipairs { -1, 1 } do
        base_holes[#base_holes + 1] = hole { at = { x*(slide + 11*mm), inlet_y - y1 + y*(strip_l/2 - 14*mm) },
                d = 6.5*mm }
    end
end
piece { number = "C-50", name = "base pan", group = "base", role = "base", material = "S235", thickness = t3,
        face = { outline = rectangle { 2*shell_x, base_d, at = { -shell_x, O } }, holes = base_holes,
                 bends = { { on = "left", name = "left lip", angle = -90*deg, radius = r3, height = lip },
                           { on = "right", name = "right lip", angle = -90*deg, radius = r3, height = lip },
                           { on = "top", name = "back lip", angle = -90*deg, radius = r3, height = lip } } },
        place = { at = { O, y1, FEET }, x = "right", y = "back", surface = "front" } }

-- feet: corner angles inside the base pan on thick foot plates with a levelling screw
local foot_leg = 55*mm
local fx, fy0, fy1 = shell_x - t3 - r3 - 0.2*mm, y1 + 0.2*mm, ys + t2 - t3 - r3 - 0.2*mm -- clear of the lips' bends
local function foot(x, y, k, z) return { at = { x, y, z }, x = "back", y = "up", surface = "rear",
        turn = { axis = "up", angle = k*90*deg } } end
piece { number = "C-51", name = "foot", group = "base", role = "base", material = "S235", thickness = t3,
        face = { outline = rectangle { foot_leg, FEET - t3 - t6 },
                 bends = { { on = "left", name = "leg", radius = r3, height = foot_leg } } },
        places = { foot(-fx, fy0, 0, t6), foot(fx, fy0, 1, t6), foot(fx, fy1, 2, t6), foot(-fx, fy1, 3, t6) } }
local fp = 35*mm
local function foot_plate(x, y) return flat(x, y, O) end
piece { number = "C-52", name = "foot plate", group = "base", role = "base", material = "S235", thickness = t6,
        flip = true,
        face = { outline = rectangle { 2*fp, 2*fp, corner = 8*mm, at = { -fp, -fp } },
                holes = { hole { at = { O, O }, d = 10.5*mm } } },
        places = { foot_plate(-fx + 30*mm, fy0 + 30*mm), foot_plate(fx - 30*mm, fy0 + 30*mm),
                   foot_plate(fx - 30*mm, fy1 - 30*mm), foot_plate(-fx + 30*mm, fy1 - 30*mm) } }

-- side panel: flanges all round, slots for room air low down
local side_l, side_h, flange = ys - y1, zt - FEET, 20*mm
piece { number = "C-53", name = "left panel", group = "shell", role = "shell", material = "S235", thickness = t2,
        face = { outline = rectangle { side_l, side_h },
                 holes = { row { slot { at = { 50*mm, 70*mm }, length = 70*mm, width = 9*mm, turn = 90*deg },
                         step = { (side_l - 100*mm)/11, O }, count = 12 } },
                 bends = { { on = "bottom", name = "bottom flange", radius = r2, height = flange },
                           { on = "right", name = "rear flange", radius = r2, height = flange },
                           { on = "top", name = "top flange", radius = r2, height = flange },
                           { on = "left", name = "front flange", radius = r2, height = flange } } },
        place = { at = { -shell_x, y1, FEET }, x = "back", y = "up", surface = "rear" } }
mirror("left panel", { number = "C-54", name = "right panel", plane = "x", at = O })
piece { number = "C-55", name = "rear panel", group = "shell", role = "shell", material = "S235", thickness = t2,
        flip = true,
        face = { outline = rectangle { 2*shell_x, side_h },
                 holes = { row { slot { at = { 60*mm, 70*mm }, length = 70*mm, width = 9*mm, turn = 90*deg },
                         step = { (2*shell_x - 120*mm)/15, O }, count = 16 },
                           row { slot { at = { 60*mm, side_h - 70*mm }, length = 70*mm, width = 9*mm, turn = 90*deg },
                                 step = { (2*shell_x - 120*mm)/15, O }, count = 16 } } },
        place = front(-shell_x, ys, FEET) }
-- rear shield stands off the furnace's back on its own two flanges
local shield_w, shield_h = W + 4*mm, wall_h - 20*mm
piece { number = "C-56", name = "rear shield", group = "shell", role = "shield", material = "S235", thickness = t2,
        face = { outline = rectangle { shield_w, shield_h },
                 bends = { { on = "left", name = "left flange", radius = r2, height = 15*mm },
                           { on = "right", name = "right flange", radius = r2, height = 15*mm } } },
        place = back(-shield_w/2, yw + 15*mm, zb + 10*mm) }

-- ---- roof, flue, top ----------------------------------------------------------------------------------------

local flue_y = yb - FLUE/2 - 30*mm
piece { number = "C-60", name = "furnace roof", group = "top", role = "firebox wall", material = "S235", thickness = t4,
        face = { outline = rectangle { 2*over, wall_l + 5*mm, at = { -over, O } },
                 holes = { hole { at = { O, flue_y - y1 }, d = FLUE - 13*mm } } },
        place = flat(O, y1, zr) }
-- the flue tube drops over a ring on the roof; a second ring inside stops the connecting pipe
local ring = FLUE/2 - 0.3*mm
piece { number = "C-61", name = "flue ring", group = "top", role = "flue collar", material = "S235", thickness = t4,
        face = { outline = disc { d = 2*ring }, holes = { hole { at = { O, O }, d = 2*ring - 12*mm } } },
        places = { flat(O, flue_y, roof_top), flat(O, flue_y, zt - 30*mm) } }
local end_flat = 4*mm
local tube_mid, tube_h = FLUE/2 + t3/2, zt + t6 + 40*mm - roof_top
piece { number = "C-62", name = "flue tube", group = "top", role = "flue collar", material = "S235", thickness = t3,
        face = { outline = rectangle { tube_h, end_flat },
                 bends = { { on = "top", name = "roll", kind = "roll", radius = FLUE/2,
                         angle = 360*deg - ((end_flat + 1*mm)/tube_mid)*rad } } },
        place = { at = { -end_flat, flue_y - tube_mid, roof_top }, x = "up", y = "right" } }
local grille_w = GAP - 18*mm
local grille = { hole { at = { O, flue_y }, d = FLUE + 2*t3 + 10*mm } }
for _, side in ipairs { -1, 1 } do
    grille[#grille + 1] = row { slot { at = { side*(half + t4 + grille_w/2), y1 + 50*mm }, length = 50*mm,
            width = min(10*mm, grille_w - 3*mm),
                                       turn = 90*deg }, step = { O, (DP - 60*mm)/4 }, count = 5 }
end
piece { number = "C-63", name = "top plate", group = "top", role = "top", material = "S235", thickness = t6,
        face = { outline = rectangle { 2*shell_x + 10*mm, ys + t2 + 5*mm - 10*mm, corner = 10*mm,
                at = { -shell_x - 5*mm, 10*mm } },
                 holes = grille },
        place = flat(O, O, zt) }

-- ---- doors --------------------------------------------------------------------------------------------------

-- each door is a pan whose flanges reach back; something flat in it carries the rope
local function door_pan(number, which, holes)
    local g_ = gates[which]
    local w, h_ = 2*(g_.x + seat), g_.z1 - g_.z0 + 2*seat
    local bends = {}
    for i, edge in ipairs { "bottom", "right", "top", "left" } do
        bends[i] = { on = edge, name = edge .. " flange", angle = -90*deg, radius = r3, height = door_depth }
    end
    piece { number = number, name = which .. " door", group = "doors", role = "door", material = "S235", thickness = t3,
            face = { outline = rectangle { w, h_, at = { -w/2, O } }, holes = holes, bends = bends },
            place = front(O, O, g_.z0 - seat) }
end
local function bed_size(which)
    local g_ = gates[which]
    return g_.x + seat - t3 - 0.3*mm, g_.z0 - seat + t3 + 0.3*mm, g_.z1 + seat - t3 - 0.3*mm
end

-- fire door with window; the bed is a frame
local fire = gates.fire
local sight = 20*mm                           -- the window is this much smaller than the fire opening, each side
local glass_x, glass_z0, glass_z1 = fire.x - sight + 12*mm, fire.z0 + sight - 12*mm, fire.z1 - sight + 12*mm
door_pan("C-70", "fire", { window { outline = box(sight - fire.x, seat + sight, fire.x - sight,
        fire.z1 - fire.z0 + seat - sight, 10*mm) } })
local bx, bz0, bz1 = bed_size("fire")
piece { number = "C-71", name = "fire door bed", group = "doors", role = "door", material = "S235", thickness = t3,
        flip = true,
        face = { outline = box(-bx, bz0, bx, bz1, 9*mm), holes = { window { outline = box(4*mm - fire.x, fire.z0 + 4*mm,
                fire.x - 4*mm, fire.z1 - 4*mm, 6*mm) } } },
        place = back(O, bed_y, O) }
local clamp_l, clamp_w = 110*mm, 26*mm
local clamp_y = t3 + 8*mm                     -- glass 4 mm between two flat ropes
local fire_z = (fire.z0 + fire.z1)/2
piece { number = "C-72", name = "glass clamp", group = "doors", role = "other", material = "S235", thickness = t3,
        flip = true,
        face = { outline = rectangle { clamp_l, clamp_w, corner = 3*mm, at = { -clamp_l/2, O } },
                 holes = { row { slot { at = { 15*mm - clamp_l/2, 17*mm }, length = 9*mm, width = 6*mm, turn = 90*deg },
                         step = { clamp_l - 30*mm, O }, count = 2 } } },
        places = { { at = { O, clamp_y, glass_z1 - 10*mm }, x = "right", y = "up", surface = "front" },
                   { at = { O, clamp_y, glass_z0 + 10*mm }, x = "left", y = "down", surface = "front" },
                   { at = { glass_x - 10*mm, clamp_y, fire_z }, x = "down", y = "right", surface = "front" },
                   { at = { 10*mm - glass_x, clamp_y, fire_z }, x = "up", y = "left", surface = "front" } } }

-- ash door
door_pan("C-73", "ash", {})
local ax, az0, az1 = bed_size("ash")
piece { number = "C-74", name = "ash door bed", group = "doors", role = "door", material = "S235", thickness = t3,
        flip = true,
        face = { outline = box(-ax, az0, ax, az1, 9*mm) },
        place = back(O, bed_y, O) }

-- oven door: the inner pan plugs the opening by 12 mm, its lips carry the rope
local plug_in = 12*mm
door_pan("C-75", "oven", { hole { at = { O, (gates.oven.z1 - gates.oven.z0)/2 + seat }, d = 12*mm } })
local oven = gates.oven
local plug_w, plug_h = 2*oven.x - 6*mm, oven.z1 - oven.z0 - 6*mm
local plug_flange, plug_lip = y0 + plug_in - bed_y + t2, seat - t3 + 3*mm + t2 - 0.4*mm
local plug_bends = {}
for i, edge in ipairs { "bottom", "right", "top", "left" } do
    plug_bends[i] = { on = edge, name = edge, radius = r2, height = plug_flange,
                      face = { bends = { { on = "tip", name = edge .. " lip", angle = -90*deg, radius = r2,
                              height = plug_lip } } } }
end
piece { number = "C-76", name = "oven door plug", group = "doors", role = "door", material = "S235", thickness = t2,
        face = { outline = rectangle { plug_w, plug_h, at = { -plug_w/2, O } },
                 holes = { hole { at = { O, plug_h/2 }, d = 8*mm } }, bends = plug_bends },
        place = back(O, y0 + plug_in, oven.z0 + 3*mm) }

-- hinges at the right, latches at the left, of the same two lugs
local body_lugs, door_lugs, knobs, pins = {}, {}, {}, {}
local pin_y = 20*mm
for i, which in ipairs(order) do
    local g_ = gates[which]
    local x = g_.x + seat + 16*mm
    local z0, z1 = g_.z0 - seat + 12*mm, g_.z1 + seat - 25*mm
    for _, z in ipairs { z0, z1 } do
        body_lugs[#body_lugs + 1] = flat(x, O, z)
        door_lugs[#door_lugs + 1] = flat(x, pin_y, z + t6 + 1*mm)
        pins[#pins + 1] = flat(x, pin_y, z + t6)
    end
    local z = (g_.z0 + g_.z1)/2
    body_lugs[#body_lugs + 1] = flat(-x, O, z)
    door_lugs[#door_lugs + 1] = { at = { -x, pin_y, z + t6 + 1*mm }, x = "left", y = "front", surface = "rear" }
    knobs[i] = flat(-x, O, z)
end
piece { number = "C-77", name = "body lug", group = "front", role = "hinge", material = "S235", thickness = t6,
        flip = true,
        face = { outline = polygon { { -13*mm, 5*mm, round = 8*mm }, { 13*mm, 5*mm, round = 8*mm },
                { 13*mm, y0, edge = "root" }, { -13*mm, y0 } },
                 holes = { hole { at = { O, pin_y }, d = 8.4*mm } } },
        places = body_lugs }
piece { number = "C-78", name = "door lug", group = "doors", role = "hinge", material = "S235", thickness = t6,
        flip = true,
        face = { outline = polygon { { -16*mm, -11*mm }, { 13*mm, -11*mm, round = 8*mm },
                { 13*mm, 11*mm, round = 8*mm }, { -16*mm, 11*mm, edge = "root" } },
                 holes = { hole { at = { O, O }, d = 8.4*mm } } },
        places = door_lugs }

for _, which in ipairs(order) do
    hinge { name = which .. " door", at = { gates[which].x + seat + 16*mm, pin_y }, opens = 90*deg,
            carries = { which .. " door", which .. " door rope",
                        which == "fire" and "glass pane" or which == "oven" and "oven door insulation" or nil,
                        which == "fire" and "glass clamp" or nil } }
end

-- ---- joints -------------------------------------------------------------------------------------------------

-- `gap`: what the welder may bridge; a fillet no more than 0.5 mm + 0.2 throat (ISO 5817 level C, from memory)
local function weld(name, kind, seam, throat, gap, a_end, b_end, tight)
    joint { name = name, kind = kind, seam = seam, throat = throat, gap = gap, tight = tight or false, a = a_end,
            b = b_end }
end
local function stitched(name, kind, throat, gap, a_end, b_end)
    joint { name = name, kind = kind, seam = "fillet", throat = throat, gap = gap, stitch = 25*mm, pitch = 100*mm,
            a = a_end, b = b_end }
end
local function touches(name, kind, gap, a_end, b_end) joint { name = name, kind = kind, seam = "none", gap = gap,
        a = a_end, b = b_end } end

for _, side in ipairs { "left", "right" } do
    local wall = side .. " wall"
    weld(wall .. " to bottom", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "bottom" },
            { "bottom plate", face = "main" }, true)
    weld(wall .. " to roof", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "top" }, { "furnace roof", face = "main" },
            true)
    for i = 1, 4 do
        weld(wall .. " to front plate " .. i, "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "front " .. i },
                { "front plate", face = "main" }, true)
    end
    for i = 1, 3 do
        weld(wall .. " tab " .. i, "slot and tab", "plug", 2*mm, 0.5*mm, { wall, edge = "tab " .. i },
                { "front plate", face = "main" })
    end
    weld("back wall to " .. wall, "lap", "fillet", 2.5*mm, 0.4*mm, { "back wall", edge = side .. " flange.tip" },
            { wall }, true)
    weld("grate floor to " .. wall, "tee", "fillet", 2*mm, 0.4*mm, { "grate floor", edge = side }, { wall })
    weld(side .. " duct to wall", "tee", "fillet", 1.5*mm, 0.3*mm, { side .. " duct", edge = "left" }, { wall }, true)
    weld(side .. " duct to front plate", "tee", "fillet", 1.5*mm, 0.3*mm, { side .. " duct", edge = "leg.tip" },
            { "front plate" }, true)
    weld(side .. " duct to grate floor", "tee", "fillet", 1.5*mm, 0.3*mm, { side .. " duct", edge = "bottom" },
            { "grate floor" }, true)
    weld(side .. " duct to wash channel", "tee", "fillet", 1.5*mm, 0.3*mm, { side .. " duct", edge = "top" },
            { "wash channel" }, true)
    weld("wash channel to " .. wall, "tee", "fillet", 1.5*mm, 0.4*mm, { "wash channel", edge = side }, { wall })
    weld("oven " .. side .. " side to front plate", "tee", "fillet", 2*mm, 0.3*mm,
         { "oven wrap", edge = side .. " side." .. side }, { "front plate" }, true)
    weld("oven " .. side .. " side to lid", "corner", "outside corner", 2*mm, 0.3*mm,
            { "oven wrap", edge = side .. " side.tip" }, { "oven lid" }, true)
    weld("oven back to " .. side .. " side", "corner", "fillet", 2*mm, 0.8*mm, { "oven back", edge = side },
            { "oven wrap" }, true)
    stitched("jet channel to back wall, " .. side, "tee", 1.5*mm, 0.3*mm, { "jet channel", edge = side .. " leg.tip" },
            { "back wall" })
    stitched("rear shield, " .. side, "tee", 1.5*mm, 0.3*mm, { "rear shield", edge = side .. " flange.tip" }, { wall })
    local panel = side .. " panel"
    touches(panel .. " on base pan", "lap", 0.3*mm, { panel, edge = "bottom flange.tip" },
            { "base pan", face = "main" })
    touches(panel .. " behind front plate, screwed", "lap", 0.3*mm, { panel, edge = "front flange.tip" },
            { "front plate" })
    touches(panel .. " to rear panel, screwed", "lap", 0.3*mm, { panel, edge = "rear flange.tip" }, { "rear panel" })
    touches(panel .. " under top plate", "lap", 0.3*mm, { panel, edge = "top flange.tip" }, { "top plate" })
end
weld("back wall to bottom", "tee", "fillet", 2.5*mm, 0.3*mm, { "back wall", edge = "bottom" }, { "bottom plate" }, true)
weld("back wall to roof", "tee", "fillet", 2.5*mm, 0.3*mm, { "back wall", edge = "top" }, { "furnace roof" }, true)
weld("bottom plate to front plate", "tee", "fillet", 2.5*mm, 0.3*mm, { "bottom plate", edge = "bottom" },
        { "front plate" }, true)
weld("roof to front plate", "tee", "fillet", 2.5*mm, 0.3*mm, { "furnace roof", edge = "bottom" }, { "front plate" },
        true)
weld("grate floor to front plate", "tee", "fillet", 2*mm, 0.4*mm, { "grate floor", edge = "front" }, { "front plate" })
weld("grate floor to back wall", "tee", "fillet", 2*mm, 0.4*mm, { "grate floor", edge = "back" }, { "back wall" })
stitched("grate seat to grate floor", "lap", 2*mm, 0.3*mm, { "grate seat", edge = "left" }, { "grate floor" })
stitched("grate seat to grate floor, right", "lap", 2*mm, 0.3*mm, { "grate seat", edge = "right" }, { "grate floor" })
for i = 1, 4 do
    stitched("wall rail " .. i, "lap", 2*mm, 0.3*mm, { "wall rail", edge = "leg.tip", place = i },
            { i % 2 == 1 and "left wall" or "right wall" })
    weld("foot " .. i .. " to base pan", "tee", "fillet", 2*mm, 0.3*mm, { "foot", edge = "top", place = i },
            { "base pan" })
    weld("foot " .. i .. " to foot plate", "tee", "fillet", 2*mm, 0.3*mm, { "foot", edge = "bottom", place = i },
            { "foot plate", place = i })
    stitched("shelf rail " .. i, "lap", 1*mm, 0.3*mm, { "shelf rail", edge = "leg.tip", place = i }, { "oven liner" })
end
weld("oven bottom to front plate", "tee", "fillet", 2*mm, 0.3*mm, { "oven wrap", edge = "bottom" }, { "front plate" },
        true)
weld("oven lid to front plate", "tee", "fillet", 2*mm, 0.3*mm, { "oven lid", edge = "bottom" }, { "front plate" }, true)
weld("oven back to bottom", "corner", "fillet", 2*mm, 0.8*mm, { "oven back", edge = "bottom" }, { "oven wrap" }, true)
weld("oven back to lid", "corner", "fillet", 2*mm, 0.4*mm, { "oven back", edge = "top" }, { "oven lid" }, true)
weld("jet channel to grate floor", "tee", "fillet", 1.5*mm, 0.3*mm, { "jet channel", edge = "bottom" },
        { "grate floor" })
weld("wash channel lid to front plate", "tee", "fillet", 1.5*mm, 0.3*mm, { "wash channel", edge = "lid.tip" },
        { "front plate" })
touches("bottom plate on base pan, bolted", "lap", 0.3*mm, { "bottom plate", edge = "left" },
        { "base pan", face = "main" })
touches("base pan behind front plate, bolted", "tee", 0.3*mm, { "base pan", edge = "bottom" }, { "front plate" })
touches("top plate on front plate", "tee", 0.3*mm, { "front plate", edge = "top" }, { "top plate" })
weld("flue ring to roof", "lap", "fillet", 2.5*mm, 0.3*mm, { "flue ring", edge = "rim", place = 1 },
        { "furnace roof", face = "main" }, true)
weld("flue tube to flue ring", "corner", "fillet", 2*mm, 0.6*mm, { "flue ring", edge = "rim", place = 1 },
        { "flue tube" }, true)
weld("pipe stop to flue tube", "corner", "fillet", 2*mm, 0.6*mm, { "flue ring", edge = "rim", place = 2 },
        { "flue tube" })
weld("flue tube seam", "butt", "square butt", 3*mm, 1.3*mm, { "flue tube", edge = "bottom" },
        { "flue tube", edge = "roll.tip" }, true)
for i = 1, 2 do
    stitched("gas guide " .. i, "tee", 2*mm, 0.3*mm, { "gas guide", edge = "bottom", place = i }, { "oven lid" })
    stitched("pan rail " .. i, "tee", 1.5*mm, 0.3*mm, { "pan rail", edge = "leg.tip", place = i }, { "bottom plate" })
    touches("slide spacer " .. i .. ", screwed", "lap", 0.3*mm, { "slide spacer", edge = "left", place = i },
            { "base pan", face = "main" })
    touches("slide keeper " .. i .. ", screwed", "lap", 0.3*mm, { "slide keeper", edge = "right", place = i },
            { "slide spacer", place = i })
end
for i = 1, 9 do
    local which = order[(i - 1)//3 + 1]
    weld("body lug " .. i, "tee", "fillet", 3*mm, 0.3*mm, { "body lug", edge = "root", place = i },
            { "front plate", face = "main" })
    weld("door lug " .. i, "tee", "fillet", 3*mm, 0.3*mm, { "door lug", edge = "root", place = i },
            { which .. " door" })
end
for _, edge in ipairs { "bottom", "right", "top", "left" } do
    stitched("fire door bed, " .. edge, "tee", 2*mm, 0.5*mm, { "fire door bed", edge = edge }, { "fire door" })
    stitched("ash door bed, " .. edge, "tee", 2*mm, 0.5*mm, { "ash door bed", edge = edge }, { "ash door" })
    stitched("oven door plug, " .. edge, "tee", 1.5*mm, 0.5*mm, { "oven door plug", edge = edge .. " lip.tip" },
            { "oven door" })
end

-- ---- lining, glass and what is bought -----------------------------------------------------------------------

local board_top = baffle_z - 26*mm
local board_h = board_top - zf - LIN
local side_y0, side_l_ = y1 + duct_y + 1*mm, DP - duct_y - 2*mm
item { number = "C-80", name = "side board", group = "lining", role = "lining", kind = "board",
        material = "vermiculite board", price = 12,
       shape = rectangle { side_l_, board_h }, thickness = LIN,
       places = { { at = { 0.5*mm - half, side_y0, zf + LIN }, x = "back", y = "up" },
               { at = { half - 0.5*mm, side_y0 + side_l_, zf + LIN }, x = "front", y = "up" } } }
local back_board = half - LIN - 1.5*mm - jet_w/2 - 1*mm
item { number = "C-81", name = "back board", group = "lining", role = "lining", kind = "board",
        material = "vermiculite board", price = 9,
       shape = rectangle { back_board, board_h }, thickness = LIN,
       places = { { at = { -jet_w/2 - 1*mm - back_board, yb - 0.5*mm, zf + LIN }, x = "right", y = "up" },
                  { at = { jet_w/2 + 1*mm, yb - 0.5*mm, zf + LIN }, x = "right", y = "up" } } }
local bed_x, bed_y0, bed_y1 = half - 1*mm, duct_y + 2*mm, DP - LIN - 1*mm
item { number = "C-82", name = "floor board", group = "lining", role = "lining", kind = "board",
        material = "vermiculite board", price = 9,
       shape = box(-bed_x, bed_y0, bed_x, bed_y1), thickness = LIN - 0.5*mm,
       holes = { window { outline = box(-grate_w/2 - 3*mm, grate_y - grate_d/2 - 3*mm, grate_w/2 + 3*mm,
               grate_y + grate_d/2 + 3*mm) } },
       place = { at = { O, y1, zf }, x = "right", y = "back" } }
item { number = "C-83", name = "grate", group = "lining", role = "grate", kind = "cast", material = "EN-GJL-200",
        price = 18,
       shape = rectangle { grate_w, grate_d, at = { -grate_w/2, -grate_d/2 } },
       holes = { grid { slot { at = { -0.3*grate_w, -0.42*grate_d }, length = 52*mm, width = 9*mm },
               step_x = 0.3*grate_w, step_y = 0.14*grate_d,
                 count_x = 3, count_y = 7 } }, thickness = 14*mm,
       place = { at = { O, y1 + grate_y, zg }, x = "right", y = "back" } }
item { number = "C-84", name = "glass pane", group = "doors", role = "glazing", kind = "glass",
        material = "glass-ceramic", price = 65,
       shape = box(-glass_x, glass_z0, glass_x, glass_z1, 4*mm), thickness = 4*mm,
       place = { at = { O, t3 + 6*mm, O }, x = "right", y = "up" } }
item { number = "C-85", name = "oven door insulation", group = "doors", role = "insulation", kind = "board",
        material = "vermiculite board", price = 5,
       shape = rectangle { plug_w - 16*mm, plug_h - 16*mm, at = { 8*mm - plug_w/2, 8*mm } }, thickness = 20*mm,
       place = { at = { O, y0 + plug_in - t2 - 1*mm, oven.z0 + 3*mm }, x = "right", y = "up" } }
local function gate_rope(g_) return 4*(g_.x + seat/2) + 2*(g_.z1 - g_.z0 + seat) end
local per_metre = 0.08*kg/m*(ROPE/(10*mm))*(ROPE/(10*mm))
for i, which in ipairs(order) do
    local g_ = gates[which]
    item { number = "C-8" .. 5 + i, name = which .. " door rope", group = "doors", role = "rope", kind = "rope",
            material = "glass rope", price = 6,
           length = gate_rope(g_), mass_per_m = per_metre,
           d = ROPE, groove = { depth = O, width = seat - t3 }, joint = y0 - bed_y,
           place = { at = { O, bed_y, (g_.z0 + g_.z1)/2 }, x = "right", y = "up" } }
end
item { number = "C-89", name = "glass rope, flat", group = "doors", role = "rope", kind = "rope",
        material = "glass rope", price = 3,
       length = 4*glass_x + 2*(glass_z1 - glass_z0), mass_per_m = 0.02*kg/m,
       d = 3*mm, groove = { depth = O, width = 10*mm }, joint = 2*mm, -- before and behind the pane
               place = { at = { O, 9*mm, fire_z }, x = "right", y = "up" } }
item { number = "C-90", name = "hinge pin", group = "doors", role = "hinge", kind = "bought", material = "steel",
        mass = 0.01*kg, price = 1, places = pins }
item { number = "C-91", name = "handle with cam", group = "doors", role = "handle", kind = "bought",
        material = "steel", mass = 0.24*kg, price = 12, places = knobs }
item { number = "C-92", name = "slide knob", group = "air", role = "handle", kind = "bought", material = "steel",
        mass = 0.03*kg, price = 2,
       place = { at = { O, 21*mm, FEET - 8*mm }, x = "right", y = "back" } }
item { number = "C-93", name = "oven thermometer", group = "doors", role = "other", kind = "bought", material = "steel",
        mass = 0.09*kg, price = 9,
       place = { at = { O, O, (oven.z0 + oven.z1)/2 }, x = "right", y = "up" } }
item { number = "C-94", name = "levelling screw", group = "base", role = "foot", kind = "bought", material = "steel",
        mass = 0.05*kg, price = 1.5,
       places = { flat(-fx + 30*mm, fy0 + 30*mm, O), flat(fx - 30*mm, fy0 + 30*mm, O), flat(fx - 30*mm, fy1 - 30*mm, O),
               flat(-fx + 30*mm, fy1 - 30*mm, O) } }
item { number = "C-95", name = "screws and nuts, set", group = "shell", role = "fastener", kind = "bought",
        material = "steel", mass = 0.6*kg, price = 6,
       place = { at = { O, yb, zb }, x = "right", y = "back" } }

-- ---- air openings -------------------------------------------------------------------------------------------

-- the grate's own shutter, bought with it, leaves 55 % of the slots when it is open
opening { name = "grate", kind = "primary", area = 0.55*21*(52*mm)*(9*mm), height = zg }
opening { name = "airwash slot", kind = "wash", area = (W - 2*duct_x)*wash_slot, height = wash_z }
opening { name = "rear jets", kind = "rear jet", area = 8*pi/4*(6*mm)*(6*mm), height = zf + 0.6*jet_h,
          hole = 6*mm }
