-- A small heater to start from: a welded box with one baffle, a flat bed, air over the pane and through jets behind.
-- Invented for demonstration; not a tested appliance.
-- The language is described in docs/description.md. Every quantity carries its unit.
-- Stove frame: x to the right seen from the front, y to the back, z up, origin on the floor under the middle of the front.

stove { name = "example", title = "Small heater", note = "Invented for demonstration; not a tested appliance.",
        duty = { output = 4.5*kW, refuel = 45*min, efficiency = 0.75, fuel = "beech logs" } }

-- ---- what may be changed: stovewright check example.stove.lua --set width=380mm -----------------------------------

local W = parameter("width", 360*mm, { min = 330*mm, max = 420*mm }, "inside of the firebox from wall to wall")
local D = parameter("depth", 310*mm, { min = 300*mm, max = 380*mm }, "inside from front plate to back wall")
local H = parameter("height", 520*mm, { min = 480*mm, max = 580*mm }, "inside from floor to roof")
local flue = parameter("flue_diameter", 150*mm, { min = 130*mm, max = 150*mm }, "inside of the flue collar")

-- ---- what follows from it -----------------------------------------------------------------------------------------

local thick, middle, thin = 4*mm, 3*mm, 2*mm       -- sheets of the works
local r4, r3, r2 = 6*mm, 5*mm, 3*mm                -- inside radii that its dies make: about 0.16 of their opening
local lining = 25*mm
local y0, zf = 46*mm, 262*mm                       -- front of the front plate, top of the floor
local y1 = y0 + thick                              -- inside of the front plate
local yb = y1 + D                                  -- inside of the back wall
local zr = zf + H                                  -- underside of the roof
local wall_x = W/2 + thick                         -- outside of the side walls
local plate_x = wall_x + 6*mm                      -- floor, roof and front stand out: their seams lie on the ledge
local open_x, open_z0, open_z1 = W/2 - 35*mm, zf + 45*mm, zr - 130*mm -- door opening
local baffle_z = zr - 115*mm                       -- top of the rests that the baffle lies on
local channel = 36*mm                              -- depth of the airwash channel
local throat_y = y1 + 82*mm                        -- front edge of the baffle: the gas goes round it
local jet_z, jets, jet_d = zf + 225*mm, 7, 6.5*mm
local collar_y = yb - 100*mm
local base_t = thick

-- Places: upright and looking to the front, to the rear; lying and looking up.
local function front(x, y, z, surface) return { at = { x, y, z }, x = "right", y = "up", surface = surface } end
local function rear(x, y, z, surface) return { at = { x, y, z }, x = "left", y = "up", surface = surface } end
local function flat(x, y, z, surface) return { at = { x, y, z }, x = "right", y = "back", surface = surface or "rear" } end

group("furnace", { title = "Furnace", explode = { 0*mm, 0*mm, 0*mm } })
group("lining", { title = "Lining", explode = { 0*mm, -400*mm, 0*mm } })
group("shields", { title = "Shields", explode = { 0*mm, 250*mm, 0*mm } })
group("base", { title = "Base", explode = { 0*mm, 0*mm, -200*mm } })
group("door", { title = "Door", explode = { 0*mm, -250*mm, 0*mm } })

-- Every piece is of the same steel.
local function sheet_piece(number, name, in_group, role, thickness, rest)
    rest.number, rest.name, rest.group, rest.role, rest.thickness = number, name, in_group, role, thickness
    rest.material = "S235"
    piece(rest)
end

-- ---- the furnace --------------------------------------------------------------------------------------------------

local deck_d = yb - y0 + thick + 12*mm             -- floor and roof from 6 mm before the front to 6 mm behind the back
sheet_piece("E-01", "floor", "furnace", "firebox floor", thick,
    { face = { outline = rectangle { 2*plate_x, deck_d } }, place = flat(-plate_x, y0 - 6*mm, zf - thick) })

-- Side walls: the rear edge is bent inward, the back wall lies on these flanges from behind.
local lap = 36*mm
sheet_piece("E-02", "left side", "furnace", "firebox wall", thick,
    { face = { outline = rectangle { D, H }, number_at = { 40*mm, 20*mm },
               bends = { { on = "right", name = "rear flange", angle = 90*deg, radius = r4, height = lap } } },
      place = { at = { -wall_x, y1, zf }, x = "back", y = "up", surface = "rear" } })
mirror("left side", { number = "E-03", name = "right side", plane = "x", at = 0*mm })

-- Back wall with a row of jets. Seen from behind: x to the left.
local pitch, back_x = 30*mm, wall_x - r4 - thick - 4*mm
sheet_piece("E-04", "back wall", "furnace", "firebox wall", thick,
    { face = { outline = rectangle { 2*back_x, H },
               holes = { row { hole { at = { back_x - pitch*(jets - 1)/2, jet_z - zf }, d = jet_d },
                               step = { pitch, 0*mm }, count = jets } } },
      place = rear(back_x, yb + thick, zf, "front") })

-- Front plate: door opening; air comes in through holes behind three turning discs.
local disc_holes, disc_hole_d, disc_r = 4, 11*mm, 22*mm
local wash_x, wash_z = W/2 - 95*mm, zr - 66*mm
local function air_holes(x, z, share)
    local list = {}
    for i = 1, disc_holes do
        local turn = (i - 0.5)*360*deg/disc_holes
        list[i] = hole { at = { x + disc_r*cos(turn), z + disc_r*sin(turn) }, d = share*disc_hole_d }
    end
    list[#list + 1] = hole { at = { x, z }, d = 6.5*mm }
    return list
end
local front_holes = { window { outline = rectangle { 2*open_x, open_z1 - open_z0, corner = 12*mm },
                               at = { -open_x, open_z0 - zf } } }
for _, x in ipairs { -wash_x, wash_x } do
    for _, one in ipairs(air_holes(x, wash_z - zf, 1)) do front_holes[#front_holes + 1] = one end
end
sheet_piece("E-05", "front plate", "furnace", "front", thick,
    { face = { outline = rectangle { 2*plate_x, H, at = { -plate_x, 0*mm } }, holes = front_holes,
               number_at = { -plate_x + 10*mm, 10*mm } },
      place = front(0*mm, y0, zf, "front") })

sheet_piece("E-06", "roof", "furnace", "firebox roof", thick,
    { face = { outline = rectangle { 2*plate_x, deck_d },
               holes = { hole { at = { plate_x, collar_y - y0 + 6*mm }, d = flue } } },
      place = flat(-plate_x, y0 - 6*mm, zr) })

-- Flue collar: a strip rolled to a ring; both ends keep a short flat, the seam stays open half a millimetre.
local flat_end, collar_mid = 8*mm, flue/2 + middle/2
sheet_piece("E-07", "flue collar", "furnace", "flue collar", middle,
    { turns = "half",
      face = { outline = rectangle { flat_end, 80*mm }, number_at = false,
               bends = { { on = "right", name = "ring", kind = "roll", radius = flue/2, height = flat_end,
                           angle = 360*deg - 2*atan(flat_end + 0.25*mm, collar_mid) } } },
      place = { at = { -flat_end, collar_y + collar_mid, zr + thick }, x = "right", y = "up" } })

-- Baffle: lies loose on two angles, so that it may grow; its front edge is turned up.
local rest, rest_l = 30*mm, yb - 14*mm - throat_y
sheet_piece("E-08", "baffle", "furnace", "baffle", thick,
    { face = { outline = rectangle { W - 6*mm, yb - thick - 3*mm - throat_y },
               bends = { { on = "bottom", name = "nose", angle = 45*deg, height = 30*mm, radius = r4 } } },
      place = flat(-W/2 + 3*mm, throat_y, baffle_z) })
sheet_piece("E-09", "rest", "furnace", "support", middle,
    { face = { outline = rectangle { rest_l, rest }, number_at = false,
               bends = { { on = "top", name = "seat", height = rest, radius = r3 } } },
      places = { { at = { -W/2, throat_y, baffle_z - rest }, x = "back", y = "up", surface = "rear" },
                 { at = { W/2, throat_y + rest_l, baffle_z - rest }, x = "front", y = "up", surface = "rear" } } })

-- Airwash channel inside above the door: its foot leaves a slot of 5 mm along the front plate, down which the air falls.
sheet_piece("E-10", "airwash channel", "furnace", "air duct", thin,
    { face = { outline = rectangle { W - 1*mm, 80*mm },
               bends = { { on = "bottom", name = "foot", angle = 90*deg, radius = r2, height = channel - 5*mm },
                         { on = "top", name = "cover", angle = 90*deg, radius = r2, height = channel } } },
      place = front(-W/2 + 0.5*mm, y1 + channel, zr - 122*mm, "rear") })

-- Jacket behind the back: open below, its air is warmed on the way up to the jets.
local jacket_x, jacket = 100*mm, 24*mm
sheet_piece("E-11", "jet jacket", "furnace", "air duct", thin,
    { face = { outline = rectangle { 2*jacket_x, jet_z + 25*mm - zf - 30*mm },
               bends = { { on = "left", name = "left flange", angle = -90*deg, radius = r2, height = jacket },
                         { on = "right", name = "right flange", angle = -90*deg, radius = r2, height = jacket },
                         { on = "top", name = "cover", angle = -90*deg, radius = r2, height = jacket } } },
      place = rear(jacket_x, yb + thick + jacket, zf + 30*mm, "front") })

-- Air disc: turns on a screw before the holes of the front plate.
sheet_piece("E-12", "air disc", "furnace", "air control", thin,
    { turns = "free",
      face = { outline = disc { d = 78*mm }, holes = air_holes(0*mm, 0*mm, 1), number_at = false },
      places = { front(-wash_x, y0 - 0.2*mm, wash_z, "rear"), front(wash_x, y0 - 0.2*mm, wash_z, "rear") } })

-- ---- shields: the room's air rises behind them ----------------------------------------------------------------------

local gap, shield_z, shield_h = 28*mm, zf + 15*mm, H - 30*mm
sheet_piece("E-13", "left shield", "shields", "heat shield", thin,
    { face = { outline = rectangle { D - 30*mm, shield_h },
               bends = { { on = "left", name = "front flange", radius = r2, height = gap },
                         { on = "right", name = "rear flange", radius = r2, height = gap } } },
      place = { at = { -wall_x - gap, y1 + 6*mm, shield_z }, x = "back", y = "up", surface = "rear" } })
mirror("left shield", { number = "E-14", name = "right shield", plane = "x", at = 0*mm })
local rear_gap = 46*mm
sheet_piece("E-15", "rear shield", "shields", "heat shield", thin,
    { face = { outline = rectangle { 2*wall_x - 40*mm, shield_h },
               bends = { { on = "left", name = "left flange", angle = -90*deg, radius = r2, height = rear_gap },
                         { on = "right", name = "right flange", angle = -90*deg, radius = r2, height = rear_gap } } },
      place = rear(wall_x - 20*mm, yb + thick + rear_gap, shield_z, "front") })

-- ---- base -----------------------------------------------------------------------------------------------------------

local stand_x, stand_y0, stand_l = wall_x - 36*mm, y0, yb - y0
sheet_piece("E-16", "base plate", "base", "base", base_t,
    { face = { outline = rectangle { 2*wall_x + 40*mm, yb - y0 + 40*mm, corner = 20*mm },
               holes = { window { outline = rectangle { 2*stand_x - 80*mm, yb - y0 - 100*mm, corner = 20*mm },
                                  at = { wall_x + 20*mm - stand_x + 40*mm, 60*mm } } } },
      place = flat(-wall_x - 20*mm, y0 - 20*mm, 0*mm) })
sheet_piece("E-17", "left stand", "base", "stand", middle,
    { face = { outline = rectangle { stand_l, zf - thick - base_t },
               bends = { { on = "bottom", name = "foot", angle = -90*deg, radius = r3, height = 36*mm },
                         { on = "top", name = "head", angle = -90*deg, radius = r3, height = 36*mm } } },
      place = { at = { -stand_x, stand_y0, base_t }, x = "back", y = "up", surface = "front" } })
mirror("left stand", { number = "E-18", name = "right stand", plane = "x", at = 0*mm })
sheet_piece("E-19", "floor shield", "base", "heat shield", thin,
    { face = { outline = rectangle { 2*stand_x - 0.4*mm, stand_l },
               bends = { { on = "left", name = "left flange", angle = -90*deg, radius = r2, height = 20*mm },
                         { on = "right", name = "right flange", angle = -90*deg, radius = r2, height = 20*mm } } },
      place = flat(-stand_x + 0.2*mm, stand_y0, zf - 60*mm, "front") })

-- ---- door -----------------------------------------------------------------------------------------------------------

-- A tray round the pane. It swings on two pins through its lower and upper rim.
local door_x, door_deep, door_y = open_x + 20*mm, 40*mm, y0 - 43*mm
local door_z0, door_h = open_z0 - 20*mm, open_z1 - open_z0 + 40*mm
local view_x, view_in = open_x - 10*mm, 30*mm
local set4 = r4 + thick                            -- setback of a right angle
local pin_in, pin_y = 22*mm, 19*mm                 -- pin from the door's edge, and from the bend's tangent line
local pin_x, bore_y = door_x - pin_in, y0 - (door_y + set4 + pin_y)
sheet_piece("E-20", "door frame", "door", "door", thick,
    { face = { outline = rectangle { 2*door_x, door_h }, number_at = { 12*mm, 14*mm },
               holes = { window { outline = rectangle { 2*view_x, door_h - 2*view_in, corner = 10*mm },
                                  at = { door_x - view_x, view_in } } },
               bends = { { on = "left", name = "hinge rim", angle = -90*deg, radius = r4, height = door_deep },
                         { on = "right", name = "latch rim", angle = -90*deg, radius = r4, height = door_deep },
                         { on = "bottom", name = "lower rim", angle = -90*deg, radius = r4, height = door_deep,
                           face = { holes = { hole { at = { 2*door_x - set4 - pin_in, pin_y }, d = 8.3*mm } } } },
                         { on = "top", name = "upper rim", angle = -90*deg, radius = r4, height = door_deep,
                           face = { holes = { hole { at = { pin_in - set4, pin_y }, d = 8.3*mm } } } } } },
      place = front(-door_x, door_y, door_z0, "front") })
sheet_piece("E-21", "hinge bracket", "door", "hinge", thick,
    { face = { outline = polygon { { -18*mm, 0*mm, edge = "root" }, { 18*mm, 0*mm }, { 18*mm, bore_y + 13*mm, round = 8*mm },
                                   { -18*mm, bore_y + 13*mm, round = 8*mm } },
               number_at = false, holes = { hole { at = { 0*mm, bore_y }, d = 8.3*mm } } },
      places = { { at = { -pin_x, y0, door_z0 + door_h + 1.5*mm }, x = "left", y = "front", surface = "rear" },
                 { at = { -pin_x, y0, door_z0 - 1.5*mm }, x = "left", y = "front", surface = "front" } } })
local pane_x, pane_h, pane_t = view_x + 12*mm, door_h - 2*view_in + 24*mm, 4*mm
local pane_y, pane_z = door_y + thick + 2*mm, door_z0 + view_in - 12*mm
local clamps = {}
for _, z in ipairs { pane_z + 40*mm, pane_z + pane_h - 60*mm } do
    clamps[#clamps + 1] = front(-pane_x - 9.5*mm, pane_y + pane_t + 2*mm, z, "front")
    clamps[#clamps + 1] = { at = { pane_x + 9.5*mm, pane_y + pane_t + 2*mm, z + 20*mm }, x = "left", y = "down",
                            surface = "front" }
end
sheet_piece("E-22", "glass clamp", "door", "glass clamp", middle,
    { face = { outline = rectangle { 18*mm, 20*mm, corner = 2*mm }, number_at = false,
               holes = { hole { at = { 6*mm, 10*mm }, d = 5.5*mm } } }, places = clamps })
sheet_piece("E-23", "glass rest", "door", "glass clamp", middle,
    { face = { outline = rectangle { 40*mm, 12*mm }, number_at = false },
      places = { flat(-90*mm, door_y + thick, pane_z - 1*mm, "front"),
                 flat(50*mm, door_y + thick, pane_z - 1*mm, "front") } })
local latch_z = door_z0 + door_h/2
sheet_piece("E-24", "latch keeper", "door", "latch", thick,
    { face = { outline = polygon { { 0*mm, 0*mm, edge = "root" }, { 40*mm, 0*mm }, { 40*mm, 16*mm, round = 4*mm },
                                   { 26*mm, 16*mm }, { 26*mm, 8*mm }, { 16*mm, 8*mm }, { 16*mm, 16*mm },
                                   { 0*mm, 16*mm, round = 4*mm } }, number_at = false },
      place = { at = { door_x - 13*mm, y0, latch_z - 70*mm }, x = "up", y = "front" } })
hinge { name = "door", at = { -pin_x, y0 - bore_y }, opens = -90*deg,
        carries = { "door frame", "pane", "glass clamp", "door rope", "glass tape", "handle" } }

-- ---- lining, pane and what is bought --------------------------------------------------------------------------------

local function item_of(number, name, in_group, role, kind, material, rest)
    rest.number, rest.name, rest.group, rest.role, rest.kind = number, name, in_group, role, kind
    rest.material = material
    item(rest)
end
local board_z, board_top = zf + lining, baffle_z - rest - 2*mm
local side_y0, side_y1 = y1 + 6*mm, yb - thick - lining - 2*mm
item_of("E-30", "side board", "lining", "lining", "board", "vermiculite board",
    { price = 9, shape = rectangle { side_y1 - side_y0, board_top - board_z }, thickness = lining,
      places = { { at = { -W/2 + 0.5*mm, side_y0, board_z }, x = "back", y = "up" },
                 { at = { W/2 - 0.5*mm, side_y1, board_z }, x = "front", y = "up" } } })
item_of("E-31", "back board", "lining", "lining", "board", "vermiculite board",
    { price = 11, shape = rectangle { W - 22*mm, board_top - board_z }, thickness = lining,
      holes = { row { hole { at = { W/2 - 11*mm - pitch*(jets - 1)/2, jet_z - board_z }, d = 14*mm },
                      step = { pitch, 0*mm }, count = jets } },
      place = front(-W/2 + 11*mm, yb - thick - 0.5*mm, board_z) })
item_of("E-32", "floor board", "lining", "lining", "board", "vermiculite board",
    { price = 9, shape = rectangle { W - 2*mm, D - thick - 12*mm }, thickness = lining - 0.5*mm,
      place = { at = { -W/2 + 1*mm, y1 + 5*mm, zf }, x = "right", y = "back" } })
item_of("E-33", "pane", "door", "glass", "glass", "glass-ceramic",
    { price = 42, shape = rectangle { 2*pane_x, pane_h }, thickness = pane_t,
      place = front(-pane_x, pane_y + pane_t, pane_z) })
item_of("E-34", "door rope", "door", "rope", "rope", "glass rope",
    { price = 5, length = 2*(2*door_x + door_h) - 80*mm, mass_per_m = 0.06*kg/m, d = 8*mm,
      groove = { depth = 3*mm, width = 10*mm }, joint = y0 - door_y - door_deep,
      place = front(0*mm, y0 - 8*mm, latch_z) })
item_of("E-35", "glass tape", "door", "rope", "rope", "glass rope",
    { price = 3, length = 2*(2*pane_x + pane_h), mass_per_m = 0.015*kg/m, d = 3*mm,
      groove = { depth = 0*mm, width = 12*mm }, joint = 2*mm, place = front(0*mm, pane_y, latch_z) })
local function bought(number, name, in_group, role, mass, price, places)
    item_of(number, name, in_group, role, "bought", "S235", { mass = mass, price = price, places = places })
end
bought("E-40", "handle", "door", "handle", 0.4*kg, 14, { front(view_x + 11*mm, door_y - 25*mm, latch_z) })
bought("E-41", "hinge pin M8", "door", "hinge", 0.03*kg, 0.6,
    { front(-pin_x, y0 - bore_y, door_z0 + door_h), front(-pin_x, y0 - bore_y, door_z0) })
bought("E-42", "clamp stud M5 with nut", "door", "screw", 0.012*kg, 0.3, clamps)
bought("E-43", "disc screw M6 with knob", "furnace", "knob", 0.05*kg, 1.5,
    { front(-wash_x, y0 - 10*mm, wash_z), front(wash_x, y0 - 10*mm, wash_z) })
bought("E-44", "levelling screw M10", "base", "foot", 0.06*kg, 0.9,
    { flat(-wall_x, y0, 0*mm), flat(wall_x, y0, 0*mm), flat(-wall_x, yb, 0*mm), flat(wall_x, yb, 0*mm) })

-- ---- joints ---------------------------------------------------------------------------------------------------------

-- A gas-tight fillet along an edge that stands on a face, a stitched one that only holds, and what lies loose.
-- Throats are 0.7 of the thinner sheet at most.
local function tight(name, kind, a, b, throat)
    joint { name = name, kind = kind, seam = "fillet", throat = throat or 2.5*mm, gap = 0.5*mm, tight = true, a = a,
            b = b }
end
local function stitched(name, kind, a, b, throat)
    joint { name = name, kind = kind, seam = "fillet", throat = throat or 1.4*mm, gap = 0.5*mm, stitch = 25*mm,
            pitch = 100*mm, a = a, b = b }
end
local floor_, roof, plate = { "floor", face = "main" }, { "roof", face = "main" }, { "front plate", face = "main" }
for _, side in ipairs { "left side", "right side" } do
    local flange = { side, face = "rear flange" }
    tight(side .. " on floor", "tee", { side, edge = "bottom" }, floor_)
    tight(side .. " under roof", "tee", { side, edge = "top" }, roof)
    tight(side .. " to front", "tee", { side, edge = "left" }, plate)
    tight(side .. " to back wall", "lap", { "back wall", edge = side == "left side" and "right" or "left" }, flange)
end
tight("back wall on floor", "tee", { "back wall", edge = "bottom" }, floor_)
tight("back wall under roof", "tee", { "back wall", edge = "top" }, roof)
tight("front on floor", "tee", { "front plate", edge = "bottom" }, floor_)
tight("front under roof", "tee", { "front plate", edge = "top" }, roof)
tight("collar on roof", "tee", { "flue collar", edge = "bottom" }, roof, 2*mm)
joint { name = "collar seam", kind = "butt", seam = "square butt", throat = 2*mm, gap = 0.8*mm, tight = true,
        a = { "flue collar", edge = "left" }, b = { "flue collar", edge = "ring.tip" } }
for _, side in ipairs { "left", "right" } do
    stitched("jacket " .. side, "tee", { "jet jacket", edge = side .. " flange.tip" }, { "back wall", face = "main" })
    stitched("rear shield " .. side, "tee", { "rear shield", edge = side .. " flange.tip" }, { "back wall", face = "main" })
    for _, which in ipairs { "front", "rear" } do
        stitched(side .. " shield, " .. which, "tee", { side .. " shield", edge = which .. " flange.tip" },
                 { side .. " side", face = "main" })
    end
    stitched(side .. " stand under floor", "lap", { side .. " stand", edge = "head.tip" }, floor_, 2*mm)
    stitched(side .. " stand on base plate", "lap", { side .. " stand", edge = "foot.tip" }, { "base plate", face = "main" }, 2*mm)
    stitched("floor shield " .. side, "lap", { "floor shield", edge = side .. " flange.tip" },
             { side .. " stand", face = "main" })
end
stitched("jacket above", "tee", { "jet jacket", edge = "cover.tip" }, { "back wall", face = "main" })
stitched("airwash cover", "tee", { "airwash channel", edge = "cover.tip" }, plate)
for i = 1, 2 do
    stitched("rest " .. i, "lap", { "rest", edge = "bottom", place = i }, { i == 1 and "left side" or "right side", face = "main" }, 2*mm)
    joint { name = "hinge bracket " .. i, kind = "tee", seam = "fillet", throat = 2.5*mm, gap = 0.5*mm,
            a = { "hinge bracket", edge = "root", place = i }, b = plate }
    joint { name = "glass rest " .. i, kind = "tee", seam = "fillet", throat = 2*mm, gap = 0.5*mm,
            a = { "glass rest", edge = "bottom", place = i }, b = { "door frame", face = "main" } }
end
joint { name = "latch keeper", kind = "tee", seam = "fillet", throat = 2.5*mm, gap = 0.5*mm,
        a = { "latch keeper", edge = "root" }, b = plate }

-- ---- air: free areas with the discs open, heights of their middles ---------------------------------------------------

local disc_area = disc_holes*pi/4*disc_hole_d*disc_hole_d
opening { name = "airwash", kind = "wash", area = 2*disc_area, height = wash_z }
opening { name = "rear jets", kind = "rear jet", area = jets*pi/4*jet_d*jet_d, height = jet_z, hole = jet_d }
