-- Stove (a): a convection room heater of about 6 kW in steel.
-- Invented for demonstration; not a tested appliance.
--
-- An inner furnace of 4 mm sheet stands on two stands over a base plate; an outer shell of 2 mm sheet stands around it
-- and room air rises in the gap between. The language is docs/description.md. Stove frame: x to the right seen from
-- the front, y to the back, z up, origin on the floor under the middle of the front.

stove { name = "a", title = "Convection heater (a)", note = "Invented for demonstration; not a tested appliance.",
        duty = { output = 6*kW, refuel = 45*min, efficiency = 0.75, fuel = "beech logs" } }

-- ---- what the designer may change ------------------------------------------------------------------------------

local W = parameter("firebox_width", 360*mm, { min = 330*mm, max = 430*mm }, "clear width between the side linings")
local D = parameter("firebox_depth", 265*mm, { min = 245*mm, max = 310*mm },
                    "clear depth from front frame to back lining")
local H = parameter("box_height", 560*mm, { min = 500*mm, max = 640*mm },
                    "inside height of the furnace, floor to roof")
local wall = parameter("wall", 4*mm, { min = 3*mm, max = 4*mm }, "sheet of the furnace and the door")
local skin = parameter("skin", 2*mm, { min = 2*mm, max = 3*mm }, "sheet of the shell and the light parts")
local duct = parameter("duct", 3*mm, { min = 2*mm, max = 3*mm }, "sheet of air boxes, stands and brackets")
local lining = parameter("lining", 25*mm, { min = 24*mm, max = 30*mm }, "thickness of the lining boards")
local gap = parameter("convection_gap", 36*mm, { min = 36*mm, max = 50*mm },
                      "from front frame side to the shell's outside")
local fit = parameter("fit", 0.5*mm, { min = 0.3*mm, max = 0.8*mm }, "clearance where one sheet slides in another")
local flue = parameter("flue_diameter", 150*mm, { min = 130*mm, max = 160*mm }, "inside of the flue collar")
local floor_z = parameter("floor_height", 330*mm, { min = 320*mm, max = 420*mm },
                          "top of the furnace floor above the room's floor")
local head = parameter("top_space", 72*mm, { min = 72*mm, max = 120*mm },
                       "between roof and top plate, where the warm air leaves")
local rear_gap = parameter("rear_gap", 44*mm, { min = 40*mm, max = 70*mm },
                           "between furnace rear and rear panel outside")
local throat_gap = parameter("throat_gap", 65*mm, { min = 50*mm, max = 80*mm },
                             "opening in front of the throat plate")
local glass_lap = parameter("glass_lap", 12*mm, { min = 10*mm, max = 13*mm },
                            "the pane overlaps its window by this on each side")
local jets = parameter("jet_count", 9, { min = 5, max = 13 }, "air jets through the back wall")

-- ---- what follows from it ---------------------------------------------------------------------------------------

local base_t, glass_t = 6*mm, 4*mm
-- Inside radius of a bend: what a die of about 10 s makes (0.16 V, handbook 2.2); large enough that the bend may also
-- run along the rolling direction (DIN 6935, next thicker column), so that the nest may turn the pieces.
local function bent(sheet)
    if sheet < 2.5*mm then return 3*mm end
    return sheet < 3.5*mm and 5*mm or 6*mm
end
local r_wall, r_skin, r_duct = bent(wall), bent(skin), bent(duct)
local set_wall, set_skin, set_duct = r_wall + wall, r_skin + skin, r_duct + duct -- setback of a right angle
-- Middle of a hole of diameter d from the tangent line of a bend (handbook 2.6: edge 2 s + r away), and the outside
-- height of a flange that carries such holes with sheet beyond them.
local function hole_off(sheet, d) return 2*sheet + bent(sheet) + d/2 end
local function flange_for(sheet, d) return sheet + bent(sheet) + hole_off(sheet, d) + max(1.2*d, d/2 + 1.2*sheet) end

local in_x = W/2 + lining + 2*fit     -- inside of the side wall
local out_x = in_x + wall             -- outside of the side wall
local frame_x = out_x + wall          -- outside of the front frame, which laps over the side walls
local plate_x = frame_x + 6*mm        -- floor and roof stand out for their seams
local shell_x = frame_x + gap         -- outside of the shell
local lip_x = W/2 - wall              -- between the lining lips of the side walls
local web = lining + 2*fit + 2*wall   -- flange that carries a lining lip, outside
local lip = 40*mm                     -- depth of the front lip
local hook = 28*mm                    -- depth of the interlock behind the back wall

local front_y = 44*mm                 -- front of the front frame
local box_y = front_y + wall          -- inside of the front frame
local back_y = box_y + D + lining + 2*fit -- fire side of the back wall
local end_y = back_y + hook + r_wall + wall -- rear of the side walls: the back wall stays clear of their bends
local shell_y = end_y + rear_gap      -- rear of the rear panel
local collar_y = back_y - 100*mm      -- middle of the flue collar

local roof_z = floor_z + H            -- underside of the roof
local top_z = roof_z + wall + head    -- underside of the top plate
local sill, open_top = 45*mm, H - 150*mm  -- door opening, above the floor
local open_x = W/2 - 12*mm            -- half the door opening
local throat_z = open_top - 5*mm      -- underside of the throat plate, above the floor
local baffle_z = H - 55*mm            -- underside of the upper baffle, above the floor
local wash_y = box_y + lip            -- rear of the airwash channel
local throat_y = wash_y + throat_gap  -- front edge of the throat plate
local door_x, door_y, door_deep = open_x + 20*mm, front_y - 43*mm, 40*mm
-- Rolled front corner of the shell: inside radius, angle, flat end.
local curve, curve_angle, strip = 110*mm, 45*deg, 10*mm
local curve_y = front_y + 64*mm       -- where the rolled corner begins

-- Ash and air below the floor.
local grate_w, grate_d = W/2 + 10*mm, D/2 - 5*mm
local air_y = back_y - 62*mm          -- front of the air box
local grate_y = air_y - 18*mm - grate_d/2 -- middle of the grate
local ash_x, ash_high, air_high = grate_w/2 + 25*mm, 100*mm, 128*mm
local under = floor_z - wall          -- underside of the floor
local air_x = max(130*mm, ash_x)       -- the ash box ends at it
local stand_x = frame_x - 32*mm       -- inner faces of the stands

local slide_high = 38*mm
-- Slots under the air slides: the land between two slots is 2 mm longer than a slot, so that a slide shuts.
local slot_l, slot_w, slot_pitch, wash_slots = 34*mm, 7.3*mm, 70*mm, 4
local ash_slot_l, ash_slot_w, ash_pitch, ash_slots = 29*mm, 10*mm, 60*mm, 3
local jet_d, jet_z = 5*mm, 230*mm     -- rear jets, height above the floor
-- Rear jacket: between its sides and the hooks of the side walls stays a gully in which a torch of 24 mm welds both.
local gully = 52*mm
local jacket, jacket_x = 26*mm, lip_x - gully -- depth, half the width outside
local jet_x = jacket_x - 16*mm        -- outermost jet
local jet_pitch = 2*jet_x/(jets - 1)

-- A row of n equal slots, middle of the row at (x, y).
local function slots(n, pitch, x, y, length, width, turn)
    return row { slot { at = { x - (n - 1)*pitch/2, y }, length = length, width = width, turn = turn or 0*deg },
                 step = { pitch, 0*mm }, count = n }
end

group("furnace", { title = "Inner furnace", explode = { 0*mm, 0*mm, 0*mm } })
group("lining", { title = "Lining and grate", explode = { 0*mm, -500*mm, 0*mm } })
group("air", { title = "Ash and air boxes", explode = { 0*mm, -100*mm, -150*mm } })
group("base", { title = "Base and stands", explode = { 0*mm, 0*mm, -400*mm } })
group("shell", { title = "Outer shell", explode = { 0*mm, 250*mm, 250*mm } })
group("door", { title = "Door", explode = { 0*mm, -350*mm, 0*mm } })

-- ---- the furnace ------------------------------------------------------------------------------------------------

-- Floor: carries the walls; the grate lies in its window, three slots let air up into the rear jacket.
piece { number = "A-01", name = "furnace floor", group = "furnace", role = "firebox floor", material = "S235",
        thickness = wall,
    face = { outline = rectangle { 2*plate_x, end_y - front_y + 12*mm, corner = 8*mm },
             holes = { window { outline = rectangle { grate_w, grate_d, corner = 6*mm },
                                at = { plate_x - grate_w/2, grate_y - grate_d/2 - front_y + 6*mm } },
                       slots(3, 80*mm, plate_x, back_y + wall + 12*mm - front_y + 6*mm, 60*mm, 14*mm) } },
    place = { at = { -plate_x, front_y - 6*mm, floor_z }, x = "right", y = "back", surface = "front" } }

-- Back wall: its edges are bent to the rear and are caught in the hooks of the side walls; air jets in a row.
piece { number = "A-02", name = "back wall", group = "furnace", role = "firebox wall", material = "S235",
        thickness = wall,
    face = { outline = rectangle { 2*(in_x - fit), H },
             holes = { row { hole { at = { in_x - fit - jet_x, jet_z }, d = jet_d }, step = { jet_pitch, 0*mm },
                             count = jets } },
             bends = { { on = "left", name = "left flange", height = hook, radius = r_wall },
                       { on = "right", name = "right flange", height = hook, radius = r_wall } } },
    place = { at = { in_x - fit, back_y, floor_z }, x = "left", y = "up", surface = "rear" } }

-- Side wall: both upright edges bent twice. In front a flange against the front frame and a lip that holds the
-- lining; behind a flange and a return that hooks round the back wall's flange.
piece { number = "A-03", name = "left side", group = "furnace", role = "firebox wall", material = "S235",
        thickness = wall,
    face = { outline = rectangle { end_y - box_y, H }, number_at = { 120*mm, 60*mm },
             bends = { { on = "left", name = "front flange", height = web, radius = r_wall,
                         face = { bends = { { on = "tip", name = "lining lip", height = lip, radius = r_wall } } } },
                       { on = "right", name = "rear flange", height = web, radius = r_wall,
                         face = { bends = { { on = "tip", name = "hook", height = hook + r_wall - fit,
                                              radius = r_wall } } } } } },
    place = { at = { -out_x, box_y, floor_z }, x = "back", y = "up", surface = "rear" } }
mirror("left side", { number = "A-04", name = "right side", plane = "x", at = 0*mm })

-- Roof, with the opening under the flue collar.
piece { number = "A-05", name = "roof", group = "furnace", role = "firebox roof", material = "S235", thickness = wall,
    face = { outline = rectangle { 2*plate_x, end_y - front_y + 12*mm, corner = 8*mm },
             holes = { hole { at = { plate_x, collar_y - front_y + 6*mm }, d = flue } } },
    place = { at = { -plate_x, front_y - 6*mm, roof_z }, x = "right", y = "back", surface = "rear" } }

-- Front frame: door opening, slots for the airwash above it; its sides lap over the side walls.
piece { number = "A-06", name = "front frame", group = "furnace", role = "front", material = "S235", thickness = wall,
    face = { outline = rectangle { 2*frame_x, H }, number_at = { frame_x - 20*mm, H - 40*mm },
             holes = { window { outline = rectangle { 2*open_x, open_top - sill, corner = 12*mm },
                                at = { frame_x - open_x, sill } },
                       slots(wash_slots, slot_pitch, frame_x, open_top + 68*mm, slot_l, slot_w) },
             bends = { { on = "left", name = "left lap", angle = -90*deg, height = 30*mm, radius = r_wall },
                       { on = "right", name = "right lap", angle = -90*deg, height = 30*mm, radius = r_wall } } },
    place = { at = { -frame_x, front_y, floor_z }, x = "right", y = "up", surface = "front" } }

-- Flue collar: a strip rolled to a ring; both ends keep a short flat, the seam stays open half a millimetre.
local collar_t, ring_flat = 3*mm, 8*mm
local collar_r = flue/2 + collar_t/2
piece { number = "A-07", name = "flue collar", group = "furnace", role = "flue collar", material = "S235",
        thickness = collar_t,
    turns = "half",
    face = { outline = rectangle { ring_flat, head + 20*mm }, number_at = false,
             bends = { { on = "right", name = "ring", kind = "roll", radius = flue/2, height = ring_flat,
                         angle = 360*deg - 2*atan(ring_flat + 0.25*mm, collar_r) } } },
    place = { at = { -ring_flat, collar_y + collar_r, roof_z + wall }, x = "right", y = "up" } }

-- Throat plate: lies loose on three rests, its front edge turned up; the gas goes round its front.
piece { number = "A-08", name = "throat plate", group = "furnace", role = "baffle", material = "S235",
        thickness = wall,
    face = { outline = rectangle { 2*(in_x - 3*mm), back_y - 2*mm - throat_y },
             bends = { { on = "bottom", name = "nose", angle = 45*deg, height = 32*mm, radius = r_wall } } },
    place = { at = { -in_x + 3*mm, throat_y, floor_z + throat_z }, x = "right", y = "back", surface = "rear" } }

-- Rests of the throat plate: angles, one on each side wall (the same piece turned round) and one on the back wall.
local rest, rest_long = 32*mm, back_y - 2*mm - throat_y
piece { number = "A-09", name = "side rest", group = "furnace", role = "support", material = "S235", thickness = wall,
    face = { outline = rectangle { rest_long, rest }, number_at = false,
             bends = { { on = "top", name = "seat", height = rest, radius = r_wall } } },
    places = { { at = { -in_x, throat_y, floor_z + throat_z - rest }, x = "back", y = "up", surface = "rear" },
               { at = { in_x, back_y - 2*mm, floor_z + throat_z - rest }, x = "front", y = "up",
                 surface = "rear" } } }
piece { number = "A-10", name = "rear rest", group = "furnace", role = "support", material = "S235", thickness = wall,
    face = { outline = rectangle { 2*(in_x - rest - 4*mm), rest }, number_at = false,
             bends = { { on = "top", name = "seat", height = rest, radius = r_wall } } },
    place = { at = { -in_x + rest + 4*mm, back_y, floor_z + throat_z - rest }, x = "right", y = "up",
              surface = "rear" } }

-- Upper baffle: sends the gas back once more; notched round the lining lips, lies on the airwash channel and two rests.
local baffle_end, notch, baffle_w = back_y - 70*mm, lining + 2*fit + wall, 2*in_x - 6*mm
piece { number = "A-11", name = "upper baffle", group = "furnace", role = "baffle", material = "S235",
        thickness = duct,
    face = { outline = polygon { { notch, 0*mm, edge = "front" }, { baffle_w - notch, 0*mm },
                                 { baffle_w - notch, lip + 3*mm },
                                 { baffle_w, lip + 3*mm }, { baffle_w, baffle_end - box_y, edge = "rear" },
                                     { 0*mm, baffle_end - box_y },
                                 { 0*mm, lip + 3*mm }, { notch, lip + 3*mm } },
             bends = { { on = "rear", name = "stiffener", height = 24*mm, radius = r_duct } } },
    place = { at = { -in_x + 3*mm, box_y + fit, floor_z + baffle_z }, x = "right", y = "back", surface = "rear" } }
piece { number = "A-12", name = "baffle rest", group = "furnace", role = "support", material = "S235",
        thickness = duct,
    face = { outline = rectangle { baffle_end - wash_y - 14*mm, 24*mm }, number_at = false,
             bends = { { on = "top", name = "seat", height = 24*mm, radius = r_duct } } },
    places = { { at = { -in_x, wash_y + 6*mm, floor_z + baffle_z - 24*mm }, x = "back", y = "up", surface = "rear" },
               { at = { in_x, baffle_end - 8*mm, floor_z + baffle_z - 24*mm }, x = "front", y = "up",
                 surface = "rear" } } }

-- Airwash channel: a U behind the front frame between the lips; the air leaves down through a slit behind the frame.
local wash_slit, wash_half = 8*mm, lip_x - fit
piece { number = "A-13", name = "airwash channel", group = "furnace", role = "air duct", material = "S235",
        thickness = duct,
    face = { outline = rectangle { 2*wash_half, baffle_z - open_top - 2*mm },
             bends = { { on = "top", name = "cover", height = lip, radius = r_duct },
                       { on = "bottom", name = "guide lip", height = lip - wash_slit, radius = r_duct } } },
    place = { at = { -wash_half, wash_y, floor_z + open_top + 2*mm }, x = "right", y = "up", surface = "rear" } }

-- Airwash slide and the guides of both slides: a distance strip and a wider cover strip make a groove.
local wash_z = floor_z + open_top + 68*mm
piece { number = "A-14", name = "airwash slide", group = "furnace", role = "air slide", material = "S235",
        thickness = skin,
    face = { outline = rectangle { 280*mm, slide_high, corner = 3*mm }, number_at = { 4*mm, 2.5*mm },
             holes = { slots(wash_slots, slot_pitch, 140*mm, slide_high/2, slot_l, slot_w),
                       hole { at = { 140*mm, slide_high/2 }, d = 6.5*mm } } },
    place = { at = { -140*mm, front_y - fit, wash_z - slide_high/2 }, x = "right", y = "up", surface = "rear" } }
local guide_l, space_t, cover_t = grate_w + 40*mm, skin + 1*mm, skin
local ash_z = under - ash_high + 3*mm + 39*mm    -- middle of the ash opening
local ash_front, ash_deep = front_y - 10*mm, 22*mm -- front plate of the ash opening, depth of its door
local ash_in = ash_front - 3*mm - ash_deep + duct -- inside of the ash door
piece { number = "A-15", name = "guide spacer", group = "furnace", role = "guide", material = "S235",
        thickness = space_t,
    face = { outline = rectangle { guide_l, 10*mm }, number_at = false },
    places = { { at = { -guide_l/2, front_y, wash_z + slide_high/2 + fit }, x = "right", y = "up", surface = "rear" },
               { at = { -guide_l/2, front_y, wash_z - slide_high/2 - fit - 10*mm }, x = "right", y = "up",
                 surface = "rear" },
               { at = { guide_l/2, ash_in, ash_z + slide_high/2 + fit }, x = "left", y = "up", surface = "rear" },
               { at = { guide_l/2, ash_in, ash_z - slide_high/2 - fit - 10*mm }, x = "left", y = "up",
                 surface = "rear" } } }
piece { number = "A-16", name = "guide cover", group = "furnace", role = "guide", material = "S235",
        thickness = cover_t,
    face = { outline = rectangle { guide_l, 17*mm }, number_at = false },
    places = { { at = { -guide_l/2, front_y - space_t, wash_z + slide_high/2 + fit - 7*mm }, x = "right", y = "up",
                 surface = "rear" },
               { at = { -guide_l/2, front_y - space_t, wash_z - slide_high/2 - fit - 10*mm }, x = "right", y = "up",
                 surface = "rear" },
               { at = { guide_l/2, ash_in + space_t, ash_z + slide_high/2 + fit - 7*mm }, x = "left", y = "up",
                 surface = "rear" },
               { at = { guide_l/2, ash_in + space_t, ash_z - slide_high/2 - fit - 10*mm }, x = "left", y = "up",
                 surface = "rear" } } }

-- Rear jacket: a flat box on the back of the back wall that warms the air of the jets; open below over the floor slots.
piece { number = "A-17", name = "rear jacket", group = "furnace", role = "air duct", material = "S235",
        thickness = duct,
    face = { outline = rectangle { 2*jacket_x, jet_z + 30*mm }, number_at = { 40*mm, 40*mm },
             bends = { { on = "left", name = "left flange", angle = -90*deg, height = jacket, radius = r_duct },
                       { on = "right", name = "right flange", angle = -90*deg, height = jacket, radius = r_duct },
                       { on = "top", name = "cover", angle = -90*deg, height = jacket, radius = r_duct } } },
    place = { at = { jacket_x, back_y + wall + jacket, floor_z }, x = "left", y = "up", surface = "front" } }

-- Grate seat: a ring under the floor's window that carries the grate.
local ring = 12*mm
piece { number = "A-18", name = "grate seat", group = "furnace", role = "support", material = "S235",
        thickness = wall,
    face = { outline = rectangle { grate_w + 2*ring, grate_d + 2*ring, corner = 6*mm }, number_at = false,
             holes = { window { outline = rectangle { grate_w - 20*mm, grate_d - 20*mm, corner = 6*mm },
                                at = { ring + 10*mm, ring + 10*mm } } } },
    place = { at = { -grate_w/2 - ring, grate_y - grate_d/2 - ring, under }, x = "right", y = "back",
              surface = "front" } }

-- Log guard: keeps the logs off the glass; stands loose on two bent feet behind the lining lips.
piece { number = "A-19", name = "log guard", group = "furnace", role = "log guard", material = "S235",
        thickness = wall,
    face = { outline = rectangle { W - 10*mm, 62*mm }, number_at = { W/2 - 20*mm, 26*mm },
             holes = { slots(5, 50*mm, W/2 - 5*mm, 42*mm, 30*mm, 10*mm) },
             bends = { { on = "bottom", name = "left foot", from = 20*mm, to = 80*mm, angle = -90*deg, height = 30*mm,
                         radius = r_wall },
                       { on = "bottom", name = "right foot", from = W - 90*mm, to = W - 30*mm, angle = -90*deg,
                         height = 30*mm, radius = r_wall } } },
    place = { at = { -W/2 + 5*mm, wash_y + 4*mm, floor_z + lining }, x = "right", y = "up", surface = "front" } }

-- ---- ash and air below the floor --------------------------------------------------------------------------------

-- Ash box: a U under the grate, closed behind by the air box.
piece { number = "D-01", name = "ash box", group = "air", role = "ash box", material = "S235", thickness = duct,
    face = { outline = rectangle { 2*ash_x, air_y - front_y + 6*mm },
             bends = { { on = "left", name = "left side", height = ash_high, radius = r_duct },
                       { on = "right", name = "right side", height = ash_high, radius = r_duct } } },
    place = { at = { -ash_x, front_y - 6*mm, under - ash_high }, x = "right", y = "back", surface = "rear" } }

-- Ash front: closes the ash box in front round the opening of its door.
local ash_open = ash_x - 5*mm
piece { number = "D-02", name = "ash front", group = "air", role = "front", material = "S235", thickness = wall,
    face = { outline = rectangle { 2*ash_x + 50*mm, ash_high + wall + 16*mm }, number_at = { 6*mm, 6*mm },
             holes = { window { outline = rectangle { 2*ash_open, 78*mm, corner = 5*mm }, at = { 30*mm, 19*mm } } } },
    place = { at = { -ash_x - 25*mm, front_y - 6*mm, under - ash_high - 16*mm }, x = "right", y = "up",
              surface = "rear" } }

-- Ash pan: folded from one sheet, corners open by the press radius; and its handle, a bent strip.
local pan_x, pan_y0, pan_y1, pan_high = ash_open - 3*mm, front_y + 6*mm, air_y - 6*mm, 66*mm
local pan_z = under - ash_high + duct + fit
piece { number = "D-03", name = "ash pan", group = "air", role = "ash pan", material = "S235", thickness = skin,
    face = { outline = rectangle { 2*pan_x, pan_y1 - pan_y0 },
             bends = { { on = "left", name = "left side", height = pan_high, radius = r_skin },
                       { on = "right", name = "right side", height = pan_high, radius = r_skin },
                       { on = "bottom", name = "front side", height = pan_high, radius = r_skin },
                       { on = "top", name = "rear side", height = pan_high, radius = r_skin } } },
    place = { at = { -pan_x, pan_y0, pan_z }, x = "right", y = "back", surface = "rear" } }
piece { number = "D-04", name = "pan handle", group = "air", role = "handle", material = "S235", thickness = skin,
    face = { outline = rectangle { 90*mm, 16*mm }, number_at = false,
             bends = { { on = "left", name = "left leg", angle = -90*deg, height = 18*mm, radius = r_skin },
                       { on = "right", name = "right leg", angle = -90*deg, height = 18*mm, radius = r_skin } } },
    place = { at = { -45*mm, pan_y0 - 18*mm, pan_z + 34*mm }, x = "right", y = "up", surface = "front" } }

-- Air box: takes the outside air at its rear and feeds the jacket through the floor slots.
local air_end = end_y + 2*mm
piece { number = "D-05", name = "air box", group = "air", role = "air box", material = "S235", thickness = duct,
    face = { outline = rectangle { 2*air_x, air_end - air_y },
             bends = { { on = "bottom", name = "front side", height = air_high, radius = r_duct },
                       { on = "top", name = "rear side", height = air_high, radius = r_duct,
                         face = { holes = { hole { at = { air_x, 64*mm }, d = 100*mm } } } } } },
    place = { at = { -air_x, air_y, under - air_high }, x = "right", y = "back", surface = "rear" } }
piece { number = "D-06", name = "air box end", group = "air", role = "air box", material = "S235", thickness = duct,
    face = { outline = rectangle { air_end - air_y, air_high } },
    places = { { at = { -air_x, air_y, under - air_high }, x = "back", y = "up", surface = "front" },
               { at = { air_x, air_end, under - air_high }, x = "front", y = "up", surface = "front" } } }
-- Air spigot: a ring of 100 mm inside through the rear panel.
local spigot_r = 50*mm + skin/2
local spigot_z = under - air_high + set_duct + 64*mm
piece { number = "D-07", name = "air spigot", group = "air", role = "air duct", material = "S235", thickness = skin,
        turns = "half",
    face = { outline = rectangle { ring_flat, shell_y + 25*mm - air_end }, number_at = false,
             bends = { { on = "right", name = "ring", kind = "roll", radius = 50*mm, height = ring_flat,
                         angle = 360*deg - 2*atan(ring_flat + 0.25*mm, spigot_r) } } },
    place = { at = { -ring_flat, air_end, spigot_z - spigot_r }, x = "right", y = "back" } }

-- Ash door: a shallow tray with the primary air slots; its slide runs inside.
local ash_door_x, ash_door_z0, ash_door_high = ash_open + 18*mm, under - ash_high - 11*mm, 106*mm
piece { number = "D-08", name = "ash door", group = "air", role = "ash door", material = "S235", thickness = duct,
    face = { outline = rectangle { 2*ash_door_x, ash_door_high }, number_at = { 14*mm, 14*mm },
             holes = { slots(ash_slots, ash_pitch, ash_door_x, ash_z - ash_door_z0 + 6*mm, ash_slot_l, ash_slot_w),
                       slot { at = { ash_door_x + 15*mm, ash_z - ash_door_z0 - 8*mm }, length = 42*mm,
                              width = 6*mm } },
             bends = { { on = "left", name = "left rim", angle = -90*deg, height = ash_deep, radius = r_duct },
                       { on = "right", name = "right rim", angle = -90*deg, height = ash_deep, radius = r_duct },
                       { on = "bottom", name = "lower rim", angle = -90*deg, height = ash_deep, radius = r_duct },
                       { on = "top", name = "upper rim", angle = -90*deg, height = ash_deep, radius = r_duct } } },
    place = { at = { -ash_door_x, ash_front - 3*mm - ash_deep, ash_door_z0 }, x = "right", y = "up",
              surface = "front" } }
piece { number = "D-09", name = "primary slide", group = "air", role = "air slide", material = "S235",
        thickness = skin,
    face = { outline = rectangle { 160*mm, slide_high, corner = 3*mm }, number_at = false,
             holes = { slots(ash_slots, ash_pitch, 80*mm, slide_high/2 + 6*mm, ash_slot_l, ash_slot_w),
                       hole { at = { 80*mm, slide_high/2 - 8*mm }, d = 5.2*mm } } },
    place = { at = { -80*mm, ash_in + fit, ash_z - slide_high/2 }, x = "right", y = "up", surface = "front" } }

-- ---- base and stands --------------------------------------------------------------------------------------------

-- Plan of base and top plate: straight sides, rolled front corners as the shell has them.
local bow = curve + skin
local function plan(front)
    return polygon { { -shell_x + bow*(1 - cos(curve_angle)) + 11*mm, front, edge = "front" },
                     { shell_x - bow*(1 - cos(curve_angle)) - 11*mm, front },
                     { shell_x - bow*(1 - cos(curve_angle)), curve_y - bow*sin(curve_angle), sweep = curve_angle },
                     { shell_x, curve_y, edge = "right" }, { shell_x, shell_y, edge = "rear" },
                         { -shell_x, shell_y, edge = "left" },
                     { -shell_x, curve_y, sweep = curve_angle },
                     { -shell_x + bow*(1 - cos(curve_angle)), curve_y - bow*sin(curve_angle) } }
end
local foot_y0, foot_y1 = curve_y + 30*mm, shell_y - 60*mm
local stand_y0, stand_long = front_y, end_y - 4*mm - front_y
local bolt_off = set_duct + hole_off(duct, 9*mm)        -- bolts from the inner face of the stand
local foot_off = skin + set_skin + hole_off(skin, 5.5*mm) -- screws from the outside of the shell
-- Base plate: levelling screws in its corners, bolts for the stands, a wide opening to save mass.
piece { number = "B-01", name = "base plate", group = "base", role = "base", material = "S235", thickness = base_t,
    face = { outline = plan(18*mm), number_at = { 0*mm, shell_y - 40*mm },
             holes = { grid { hole { at = { -stand_x + 32*mm, curve_y }, d = 11*mm }, step_x = 2*stand_x - 64*mm,
                              step_y = shell_y - 40*mm - curve_y,
                              count_x = 2, count_y = 2 },
                       window { outline = rectangle { 2*stand_x - 120*mm, stand_long - 140*mm, corner = 30*mm },
                                at = { -stand_x + 60*mm, stand_y0 + 80*mm } },
                       grid { hole { at = { -stand_x - bolt_off, stand_y0 + 60*mm }, d = 9*mm },
                              step_x = 2*(stand_x + bolt_off), step_y = stand_long - 120*mm,
                              count_x = 2, count_y = 2 },
                       grid { hole { at = { -shell_x + foot_off, foot_y0 + 20*mm }, d = 7*mm },
                              step_x = 2*(shell_x - foot_off),
                              step_y = foot_y1 - foot_y0, count_x = 2, count_y = 2 } } },
    place = { at = { 0*mm, 0*mm, 0*mm }, x = "right", y = "back", surface = "rear" } }

-- Stands: carry the furnace; feet and heads bent outward, front edge bent outward to stiffen.
local stand_high = under - base_t
local screw_y = hole_off(skin, 4.5*mm)   -- screw holes of the under shield, from the tangent line
local shield_z = under - air_high - 8*mm -- top of the under shield
piece { number = "B-02", name = "left stand", group = "base", role = "stand", material = "S235", thickness = duct,
    face = { outline = rectangle { stand_long, stand_high },
             holes = { row { hole { at = { 60*mm, shield_z - set_skin - screw_y - base_t }, d = 5*mm },
                             step = { (stand_long - 120*mm)/2, 0*mm }, count = 3 },
                       row { slot { at = { 90*mm, 115*mm }, length = 60*mm, width = 12*mm, turn = 90*deg },
                             step = { 40*mm, 0*mm }, count = 5 } },
             bends = { { on = "bottom", name = "foot", angle = -90*deg, height = 36*mm, radius = r_duct,
                         face = { holes = { row { hole { at = { stand_long - 60*mm, hole_off(duct, 9*mm) },
                                                         d = 9*mm },
                                                  step = { -(stand_long - 120*mm), 0*mm }, count = 2 } } } },
                       { on = "top", name = "head", angle = -90*deg, height = 36*mm, radius = r_duct } } },
    place = { at = { -stand_x, stand_y0, base_t }, x = "back", y = "up", surface = "front" } }
mirror("left stand", { number = "B-03", name = "right stand", plane = "x", at = 0*mm })

-- Gussets between stands and base plate, inner corner clipped for the bend.
local function gusset_place(x_at, y_at, x_dir) return { at = { x_at, y_at, base_t }, x = x_dir, y = "up" } end
piece { number = "B-04", name = "gusset", group = "base", role = "gusset", material = "S235", thickness = duct,
    face = { outline = polygon { { set_duct + 2*mm, 0*mm, edge = "foot" }, { 46*mm, 0*mm }, { 46*mm, 5*mm },
                                 { 6*mm, 32*mm }, { 0*mm, 32*mm, edge = "side" },
                                 { 0*mm, set_duct + 2*mm } }, number_at = false },
    places = { gusset_place(-stand_x, stand_y0 + 70*mm, "right"), gusset_place(-stand_x, end_y - 40*mm, "right"),
               gusset_place(stand_x, stand_y0 + 70*mm, "left"), gusset_place(stand_x, end_y - 40*mm, "left") } }

-- Plinth in front, log tray on it and on two rests; the front rim of the tray is hemmed, nobody cuts his hand on it.
-- The tray is of 2 mm whatever the shell is of: a rim of 30 mm with a hem does not bend from more.
local tray_z, tray_t, tray_r = 62*mm, 2*mm, bent(2*mm)
piece { number = "B-05", name = "plinth", group = "base", role = "shell", material = "S235", thickness = skin,
    face = { outline = rectangle { 2*(stand_x - 2*mm), tray_z - base_t },
             holes = { slots(6, 50*mm, stand_x - 2*mm, 27*mm, 34*mm, 8*mm) },
             bends = { { on = "left", name = "left return", angle = -90*deg, height = 30*mm, radius = r_skin },
                       { on = "right", name = "right return", angle = -90*deg, height = 30*mm, radius = r_skin } } },
    place = { at = { -stand_x + 2*mm, 32*mm, base_t }, x = "right", y = "up", surface = "front" } }
piece { number = "B-06", name = "log tray", group = "base", role = "log tray", material = "S235", thickness = tray_t,
    face = { outline = rectangle { 2*(stand_x - 1*mm), end_y - 8*mm - front_y + 10*mm },
             bends = { { on = "left", name = "left rim", height = 25*mm, radius = tray_r },
                       { on = "right", name = "right rim", height = 25*mm, radius = tray_r },
                       { on = "bottom", name = "front rim", height = 30*mm, radius = tray_r,
                         face = { bends = { hem { on = "tip", name = "hem", height = 4*tray_t + 2*mm,
                                                  side = "rear" } } } },
                       { on = "top", name = "rear rim", height = 25*mm, radius = tray_r } } },
    place = { at = { -stand_x + 1*mm, front_y - 10*mm, tray_z }, x = "right", y = "back", surface = "rear" } }
piece { number = "B-07", name = "tray rest", group = "base", role = "support", material = "S235", thickness = skin,
    face = { outline = rectangle { 240*mm, 20*mm }, number_at = false,
             bends = { { on = "top", name = "seat", height = 20*mm, radius = r_skin } } },
    places = { { at = { -stand_x, front_y + 60*mm, tray_z - 20*mm }, x = "back", y = "up", surface = "rear" },
               { at = { stand_x, front_y + 300*mm, tray_z - 20*mm }, x = "front", y = "up", surface = "rear" } } }

-- Under shield: keeps the heat of the ash box off the log tray; two screws hold the lower fascia to its front.
local apron_y, apron_screw = front_y - 26*mm, 8*mm -- front of the lower fascia, screws behind the shield's front edge
piece { number = "B-08", name = "under shield", group = "base", role = "heat shield", material = "S235",
        thickness = skin,
    face = { outline = rectangle { 2*(stand_x - fit), stand_long },
             holes = { row { hole { at = { stand_x - fit - 100*mm, apron_screw }, d = 4.5*mm }, step = { 200*mm, 0*mm },
                             count = 2 } },
             bends = { { on = "left", name = "left flange", angle = -90*deg, height = flange_for(skin, 4.5*mm),
                         radius = r_skin,
                         face = { holes = { row { hole { at = { 60*mm, screw_y }, d = 4.5*mm },
                                                  step = { (stand_long - 120*mm)/2, 0*mm }, count = 3 } } } },
                       { on = "right", name = "right flange", angle = -90*deg, height = flange_for(skin, 4.5*mm),
                         radius = r_skin,
                         face = { holes = { row { hole { at = { 60*mm, screw_y }, d = 4.5*mm },
                                                  step = { (stand_long - 120*mm)/2, 0*mm }, count = 3 } } } } } },
    place = { at = { -stand_x + fit, stand_y0, shield_z }, x = "right", y = "back", surface = "front" } }

-- ---- the shell --------------------------------------------------------------------------------------------------

-- Shell side: flat wall, rolled front corner with louvre slots, flange for the rear panel.
local shell_high = top_z - base_t
local louvres, shell_number = {}, { 60*mm, 90*mm }
for i = 1, 8 do
    louvres[i] = { slot { at = { 0*mm, 0*mm }, length = 52*mm, width = 5*mm, turn = 90*deg },
                   along = shell_high - 60*mm - 16*mm*i, angle = curve_angle/2 }
end
for i = 9, 16 do
    louvres[i] = { slot { at = { 0*mm, 0*mm }, length = 52*mm, width = 5*mm, turn = 90*deg },
                   along = 60*mm + 16*mm*(i - 8), angle = curve_angle/2 }
end
local panel_y, panel_pitch = hole_off(skin, 4.2*mm), (shell_high - 120*mm)/4
piece { number = "S-01", name = "left shell", group = "shell", role = "shell", material = "S235", thickness = skin,
        turns = "half",
    face = { outline = rectangle { shell_y - skin - curve_y, shell_high }, number_at = shell_number,
             holes = { slots(4, 44*mm, (shell_y - curve_y)/2, 50*mm, 34*mm, 10*mm) },
             bends = { { on = "left", name = "front corner", kind = "roll", radius = curve, angle = curve_angle,
                         height = strip, holes = louvres },
                       { on = "right", name = "rear flange", height = flange_for(skin, 4.2*mm), radius = r_skin,
                         face = { holes = { row { hole { at = { 60*mm, panel_y }, d = 4.2*mm },
                                                  step = { panel_pitch, 0*mm }, count = 5 } } } } } },
    place = { at = { -shell_x, curve_y, base_t }, x = "back", y = "up", surface = "rear" } }
mirror("left shell", { number = "S-02", name = "right shell", plane = "x", at = 0*mm })

-- Rear panel: screwed to the shell; slots low and high for the room air, opening for the air spigot.
local panel_x = shell_x - 3*mm
piece { number = "S-03", name = "rear panel", group = "shell", role = "shell", material = "S235", thickness = skin,
    face = { outline = rectangle { 2*panel_x, shell_high },
             holes = { grid { hole { at = { panel_x - shell_x + set_skin + panel_y, 60*mm }, d = 5*mm },
                              step_x = 2*(shell_x - set_skin - panel_y),
                              step_y = panel_pitch, count_x = 2, count_y = 5 },
                       hole { at = { panel_x, spigot_z - base_t }, d = 108*mm },
                       grid { slot { at = { panel_x - 150*mm, shell_high - 90*mm }, length = 60*mm, width = 10*mm },
                              step_x = 75*mm, step_y = 22*mm, count_x = 5, count_y = 3 },
                       grid { slot { at = { panel_x - 150*mm, 40*mm }, length = 60*mm, width = 10*mm },
                              step_x = 75*mm, step_y = 22*mm, count_x = 5, count_y = 3 } } },
    place = { at = { panel_x, shell_y - skin, base_t }, x = "left", y = "up", surface = "rear" } }

-- Top plate with the grille where the warm air leaves, bolted to four brackets on the roof.
local bracket_x, bracket_w = frame_x - 10*mm, 60*mm
local bracket_leg, bracket_hole = flange_for(duct, 7*mm), hole_off(duct, 7*mm)
local bracket_y0, bracket_y1 = front_y + 20*mm, end_y - 80*mm
local fascia_y, head_off = 4*mm, hole_off(skin, 4.2*mm) -- front of the fascia; screws through its head
local bolt_x = bracket_x - set_duct - bracket_hole
piece { number = "S-04", name = "top plate", group = "shell", role = "shell", material = "S235", thickness = duct,
    face = { outline = plan(1*mm), number_at = { 0*mm, shell_y - 30*mm },
             holes = { hole { at = { 0*mm, collar_y }, d = flue + 30*mm },
                       grid { slot { at = { -shell_x + 16*mm, collar_y - 60*mm }, length = 90*mm, width = 9*mm,
                                     turn = 90*deg },
                              step_x = 15*mm, step_y = 110*mm, count_x = 3, count_y = 2 },
                       grid { slot { at = { shell_x - 16*mm - 30*mm, collar_y - 60*mm }, length = 90*mm, width = 9*mm,
                                     turn = 90*deg },
                              step_x = 15*mm, step_y = 110*mm, count_x = 3, count_y = 2 },
                       grid { slot { at = { -90*mm, 60*mm }, length = 50*mm, width = 9*mm }, step_x = 60*mm,
                              step_y = 18*mm, count_x = 4, count_y = 4 },
                       grid { hole { at = { -bolt_x, bracket_y0 + bracket_w/2 }, d = 7*mm }, step_x = 2*bolt_x,
                              step_y = bracket_y1 - bracket_y0, count_x = 2, count_y = 2 },
                       row { hole { at = { -120*mm, fascia_y + set_skin + head_off }, d = 5*mm },
                             step = { 120*mm, 0*mm }, count = 3 } } },
    place = { at = { 0*mm, 0*mm, top_z }, x = "right", y = "back", surface = "rear" } }
local function bracket_place(x_at, y_at, x_dir) return { at = { x_at, y_at, roof_z + wall }, x = x_dir, y = "up",
                                                         surface = "rear" } end
piece { number = "S-05", name = "roof bracket", group = "shell", role = "bracket", material = "S235",
        thickness = duct,
    face = { outline = rectangle { bracket_w, head },
             bends = { { on = "bottom", name = "foot", height = bracket_leg, radius = r_duct },
                       { on = "top", name = "head", height = bracket_leg, radius = r_duct,
                         face = { holes = { hole { at = { bracket_w/2, bracket_hole }, d = 7*mm } } } } } },
    places = { bracket_place(-bracket_x, bracket_y0, "back"), bracket_place(-bracket_x, bracket_y1, "back"),
               bracket_place(bracket_x, bracket_y0 + bracket_w, "front"),
                   bracket_place(bracket_x, bracket_y1 + bracket_w, "front") } }

-- Upper fascia: closes the front above the door; a slot for the knob of the airwash slide.
-- Front end of the shell, inside.
local tip_x = shell_x - 1.5*skin - (curve + skin/2)*(1 - cos(curve_angle)) - strip*sin(curve_angle)
local fascia_x, fascia_z = tip_x - 4*mm, floor_z + open_top + 27*mm
piece { number = "S-06", name = "upper fascia", group = "shell", role = "shell", material = "S235", thickness = skin,
    face = { outline = rectangle { 2*fascia_x, top_z - fascia_z },
             holes = { slot { at = { fascia_x + 18*mm, wash_z - fascia_z }, length = 52*mm, width = 8*mm },
                       grid { slot { at = { fascia_x - 120*mm, top_z - fascia_z - 60*mm }, length = 46*mm,
                                     width = 8*mm }, step_x = 60*mm, step_y = 18*mm, count_x = 5, count_y = 2 } },
             bends = { { on = "left", name = "left return", angle = -90*deg, height = 28*mm, radius = r_skin },
                       { on = "right", name = "right return", angle = -90*deg, height = 28*mm, radius = r_skin },
                       { on = "top", name = "head", angle = -90*deg, height = flange_for(skin, 4.2*mm),
                         radius = r_skin,
                         face = { holes = { row { hole { at = { fascia_x - set_skin - 120*mm, head_off },
                                                         d = 4.2*mm }, step = { 120*mm, 0*mm }, count = 3 } } } } } },
    place = { at = { -fascia_x, fascia_y, fascia_z }, x = "right", y = "up", surface = "front" } }

-- Lower fascia: frames the ash door; its foot lies on the under shield between the stands.
local apron_in = fascia_x - stand_x + fit + set_skin + 2*mm -- the foot keeps clear of stands and bends
local apron_off = stand_y0 + apron_screw - apron_y - set_skin -- screws from the tangent line of the foot
piece { number = "S-09", name = "lower fascia", group = "shell", role = "shell", material = "S235", thickness = skin,
    face = { outline = rectangle { 2*fascia_x, floor_z + 14*mm - shield_z }, number_at = { 8*mm + 2*skin, 8*mm + 2*skin },
             holes = { window { outline = rectangle { 2*ash_door_x + 6*mm, ash_door_high + 6*mm, corner = 4*mm },
                                at = { fascia_x - ash_door_x - 3*mm, ash_door_z0 - 3*mm - shield_z } } },
             bends = { { on = "left", name = "left return", angle = -90*deg, height = 19*mm, radius = r_skin },
                       { on = "right", name = "right return", angle = -90*deg, height = 19*mm, radius = r_skin },
                       { on = "bottom", name = "foot", from = apron_in, to = 2*fascia_x - apron_in, angle = -90*deg,
                         height = stand_y0 + apron_screw - apron_y + 6*mm, radius = r_skin,
                         face = { holes = { row { hole { at = { fascia_x - apron_in - 100*mm, apron_off }, d = 5*mm },
                                                  step = { 200*mm, 0*mm }, count = 2 } } } } } },
    place = { at = { -fascia_x, apron_y, shield_z }, x = "right", y = "up", surface = "front" } }

-- Shell feet: small angles that hold the shell to the base plate.
local function foot_place(x_at, y_at, x_dir) return { at = { x_at, y_at, base_t }, x = x_dir, y = "up",
                                                      surface = "rear" } end
piece { number = "S-07", name = "shell foot", group = "shell", role = "bracket", material = "S235", thickness = skin,
    face = { outline = rectangle { 40*mm, 24*mm }, number_at = false,
             bends = { { on = "bottom", name = "foot", height = flange_for(skin, 5.5*mm), radius = r_skin,
                         face = { holes = { hole { at = { 20*mm, hole_off(skin, 5.5*mm) }, d = 5.5*mm } } } } } },
    places = { foot_place(-shell_x + skin, foot_y0, "back"), foot_place(-shell_x + skin, foot_y1, "back"),
               foot_place(shell_x - skin, foot_y0 + 40*mm, "front"),
                   foot_place(shell_x - skin, foot_y1 + 40*mm, "front") } }

-- Rear heat shield: a hat of light sheet behind the furnace, tacked to the rear flanges of the side walls.
local hat_x, hat, foot = out_x - 26*mm, 22*mm, 18*mm
piece { number = "S-08", name = "rear heat shield", group = "shell", role = "heat shield", material = "S235",
        thickness = skin,
    face = { outline = rectangle { 2*hat_x, throat_z - 20*mm },
             bends = { { on = "left", name = "left step", angle = -90*deg, height = hat, radius = r_skin,
                         face = { bends = { { on = "tip", name = "left foot", height = foot, radius = r_skin } } } },
                       { on = "right", name = "right step", angle = -90*deg, height = hat, radius = r_skin,
                         face = { bends = { { on = "tip", name = "right foot", height = foot,
                                              radius = r_skin } } } } } },
    place = { at = { hat_x, end_y + hat, floor_z + 20*mm }, x = "left", y = "up", surface = "front" } }

-- ---- the door ---------------------------------------------------------------------------------------------------

-- Door frame: a tray round the glass; it swings on two pins through its lower and upper rim.
local door_z0, door_high = sill - 20*mm, open_top - sill + 40*mm
local view_x, view_in = open_x - 10*mm, 30*mm
local pin_x, pin_y = door_x - 22*mm, 19*mm -- pin from the middle of the stove; pin hole from the tangent line
piece { number = "C-01", name = "door frame", group = "door", role = "door", material = "S235", thickness = wall,
    face = { outline = rectangle { 2*door_x, door_high }, number_at = { 12*mm, 14*mm },
             holes = { window { outline = rectangle { 2*view_x, door_high - 2*view_in, corner = 10*mm },
                                at = { door_x - view_x, view_in } } },
             bends = { { on = "left", name = "hinge rim", angle = -90*deg, height = door_deep, radius = r_wall },
                       { on = "right", name = "latch rim", angle = -90*deg, height = door_deep, radius = r_wall },
                       { on = "bottom", name = "lower rim", angle = -90*deg, height = door_deep, radius = r_wall,
                         face = { holes = { hole { at = { 2*door_x - 2*set_wall - (22*mm - set_wall), pin_y },
                                                   d = 8.3*mm } } } },
                       { on = "top", name = "upper rim", angle = -90*deg, height = door_deep, radius = r_wall,
                         face = { holes = { hole { at = { 22*mm - set_wall, pin_y }, d = 8.3*mm } } } } } },
    place = { at = { -door_x, door_y, floor_z + door_z0 }, x = "right", y = "up", surface = "front" } }

-- Hinge bracket: a plate on the front frame over and under the door, bored for the pin.
local bore_y = front_y - (door_y + set_wall + pin_y) -- bore in front of the front frame
piece { number = "C-02", name = "hinge bracket", group = "door", role = "hinge", material = "S235", thickness = wall,
    face = { outline = polygon { { -18*mm, 0*mm, edge = "root" }, { 18*mm, 0*mm },
                                 { 18*mm, bore_y + 13*mm, round = 8*mm }, { -18*mm, bore_y + 13*mm, round = 8*mm } },
             number_at = false, holes = { hole { at = { 0*mm, bore_y }, d = 8.3*mm } } },
    places = { { at = { -pin_x, front_y, floor_z + door_z0 + door_high + 1.5*mm }, x = "left", y = "front",
                 surface = "rear" },
               { at = { -pin_x, front_y, floor_z + door_z0 - 1.5*mm }, x = "left", y = "front",
                 surface = "front" } } }

-- Glass: two rests under the pane, clamps at its edges.
local pane_x, pane_high = view_x + glass_lap, door_high - 2*view_in + 2*glass_lap
local pane_y, pane_z = door_y + wall + 2*mm, door_z0 + view_in - glass_lap
piece { number = "C-03", name = "glass rest", group = "door", role = "glass clamp", material = "S235",
        thickness = duct,
    face = { outline = rectangle { 50*mm, 12*mm }, number_at = false },
    places = { { at = { -100*mm, door_y + wall, floor_z + pane_z - 1*mm }, x = "right", y = "back",
                 surface = "front" },
               { at = { 50*mm, door_y + wall, floor_z + pane_z - 1*mm }, x = "right", y = "back",
                 surface = "front" } } }
local clamps = {}
for i = 0, 2 do
    local z_at = floor_z + pane_z + 30*mm + i*(pane_high - 80*mm)/2
    clamps[#clamps + 1] = { at = { -pane_x - 9.5*mm, pane_y + glass_t + 2*mm, z_at }, x = "right", y = "up",
                            surface = "front" }
    clamps[#clamps + 1] = { at = { pane_x + 9.5*mm, pane_y + glass_t + 2*mm, z_at + 20*mm }, x = "left", y = "down",
                            surface = "front" }
end
piece { number = "C-04", name = "glass clamp", group = "door", role = "glass clamp", material = "S235",
        thickness = duct,
    face = { outline = rectangle { 18*mm, 20*mm, corner = 2*mm }, number_at = false,
             holes = { hole { at = { 6*mm, 10*mm }, d = 5.5*mm } } },
    places = clamps }

-- Handle plate on the door's front, latch keeper standing on the front frame inside the door.
local latch_z = door_z0 + door_high/2
piece { number = "C-05", name = "handle plate", group = "door", role = "handle", material = "S235", thickness = wall,
    face = { outline = rectangle { 18*mm, 110*mm, corner = 3*mm }, number_at = false,
             holes = { row { hole { at = { 9*mm, 20*mm }, d = 6.5*mm }, step = { 0*mm, 70*mm }, count = 2 } } },
    place = { at = { view_x + 2*mm, door_y, floor_z + latch_z - 55*mm }, x = "right", y = "up", surface = "rear" } }
piece { number = "C-06", name = "latch keeper", group = "door", role = "latch", material = "S235", thickness = wall,
    face = { outline = polygon { { 0*mm, 0*mm, edge = "root" }, { 40*mm, 0*mm }, { 40*mm, 16*mm, round = 4*mm },
                                 { 26*mm, 16*mm }, { 26*mm, 8*mm }, { 16*mm, 8*mm },
                                 { 16*mm, 16*mm }, { 0*mm, 16*mm, round = 4*mm } }, number_at = false },
    place = { at = { door_x - 13*mm, front_y, floor_z + latch_z - 70*mm }, x = "up", y = "front" } }

-- ---- lining, grate, glass and bought parts ----------------------------------------------------------------------

-- Boards stand loose, held by the lips and by each other: 1 to 2 mm joints (common practice, handbook 11.3).
local board_z, board_top = floor_z + lining, floor_z + throat_z - rest - 2*mm
local side_y0, side_y1 = box_y + wall + r_wall, back_y - fit - lining - 1*mm
local vermiculite = "vermiculite board"
item { number = "L-01", name = "side board", group = "lining", role = "lining", kind = "board",
       material = vermiculite, price = 9,
       shape = rectangle { side_y1 - side_y0, board_top - board_z }, thickness = lining,
       places = { { at = { -in_x + fit, side_y0, board_z }, x = "back", y = "up" },
                  { at = { in_x - fit, side_y1, board_z }, x = "front", y = "up" } } }
item { number = "L-02", name = "back board", group = "lining", role = "lining", kind = "board",
       material = vermiculite, price = 12,
       shape = rectangle { 2*(in_x - 1*mm), board_top - board_z }, thickness = lining,
       holes = { row { hole { at = { in_x - 1*mm - jet_x, jet_z - lining }, d = 12*mm }, step = { jet_pitch, 0*mm },
                       count = jets } },
       place = { at = { -in_x + 1*mm, back_y - fit, board_z }, x = "right", y = "up" } }
local bed_y0, bed_y1, bed_side = wash_y + 2*mm, back_y - 1*mm, in_x - 3*mm - grate_w/2
item { number = "L-03", name = "floor board side", group = "lining", role = "lining", kind = "board",
       material = vermiculite, price = 6,
       shape = rectangle { bed_side, bed_y1 - bed_y0 }, thickness = lining,
       places = { { at = { -in_x + 1*mm, bed_y0, floor_z }, x = "right", y = "back" },
                  { at = { in_x - 1*mm - bed_side, bed_y0, floor_z }, x = "right", y = "back" } } }
item { number = "L-04", name = "floor board front", group = "lining", role = "lining", kind = "board",
       material = vermiculite, price = 3,
       shape = rectangle { grate_w, grate_y - grate_d/2 - 2*mm - bed_y0 }, thickness = lining,
       place = { at = { -grate_w/2, bed_y0, floor_z }, x = "right", y = "back" } }
item { number = "L-05", name = "floor board rear", group = "lining", role = "lining", kind = "board",
       material = vermiculite, price = 3,
       shape = rectangle { grate_w, bed_y1 - grate_y - grate_d/2 - 2*mm }, thickness = lining,
       place = { at = { -grate_w/2, grate_y + grate_d/2 + 2*mm, floor_z }, x = "right", y = "back" } }
item { number = "L-06", name = "throat board", group = "lining", role = "lining", kind = "board",
       material = vermiculite, price = 7,
       shape = rectangle { 2*(in_x - 5*mm), back_y - 5*mm - throat_y - 40*mm }, thickness = lining,
       place = { at = { -in_x + 5*mm, throat_y + 40*mm, floor_z + throat_z + wall }, x = "right", y = "back" } }
local bar_l = grate_d - 25*mm
item { number = "L-07", name = "grate", group = "lining", role = "grate", kind = "cast", material = "EN-GJL-200",
       price = 14,
       shape = rectangle { grate_w - 5*mm, grate_d - 5*mm }, thickness = 12*mm,
       holes = { row { slot { at = { (grate_w - 5*mm)/2 - 72*mm, (grate_d - 5*mm)/2 }, length = bar_l, width = 10*mm,
                              turn = 90*deg },
                       step = { 18*mm, 0*mm }, count = 9 } },
       place = { at = { -grate_w/2 + 2.5*mm, grate_y - grate_d/2 + 2.5*mm, under }, x = "right", y = "back" } }
item { number = "C-20", name = "pane", group = "door", role = "glass", kind = "glass", material = "glass-ceramic",
       price = 46,
       shape = rectangle { 2*pane_x, pane_high }, thickness = glass_t,
       place = { at = { -pane_x, pane_y + glass_t, floor_z + pane_z }, x = "right", y = "up" } }
local door_rope = 2*(2*door_x + door_high) - 80*mm
-- The ropes lie in channels clipped into the doors' rims. The channels are not drawn and their sizes (`groove`) are
-- invented: drawn 10 mm wide inside the rim, the fire door's would meet the latch keeper, which stands 13 mm from the
-- door's edge. Who builds this stove moves one or the other first.
item { number = "C-21", name = "door rope", group = "door", role = "rope", kind = "rope", material = "glass rope",
       length = 1.02*door_rope, d = 8*mm, groove = { depth = 3*mm, width = 10*mm },
       joint = front_y - door_y - door_deep, mass_per_m = 0.06*kg/m, price = 5,
       place = { at = { 0*mm, front_y - 8*mm, floor_z + latch_z }, x = "right", y = "up" } }
item { number = "C-22", name = "glass tape", group = "door", role = "rope", kind = "rope", material = "glass rope",
       length = 2*(2*pane_x + pane_high), mass_per_m = 0.015*kg/m, price = 3,
       d = 3*mm, groove = { depth = 0*mm, width = 12*mm }, joint = 2*mm, -- flat, before and behind the pane
       place = { at = { 0*mm, pane_y, floor_z + latch_z }, x = "right", y = "up" } }
item { number = "D-20", name = "ash door rope", group = "air", role = "rope", kind = "rope", material = "glass rope",
       length = 2*(2*ash_door_x + ash_door_high) - 40*mm, mass_per_m = 0.04*kg/m, price = 3,
       d = 6*mm, groove = { depth = 1.5*mm, width = 8*mm }, joint = 3*mm, -- from the rim to the plate of the opening
       place = { at = { 0*mm, ash_front - 4*mm, ash_z }, x = "right", y = "up" } }
hinge { name = "fire door", at = { -pin_x, front_y - bore_y }, opens = -90*deg,
        carries = { "door frame", "pane", "glass clamp", "door rope", "glass tape", "handle", "latch with roller" } }
local function bought(number, name, in_group, role, mass, price, places)
    item { number = number, name = name, group = in_group, role = role, kind = "bought", material = "S235",
           mass = mass, price = price, places = places }
end
local function spot(x_at, y_at, z_at) return { at = { x_at, y_at, z_at }, x = "right", y = "up" } end
bought("C-23", "handle", "door", "handle", 0.35*kg, 11, { spot(view_x + 11*mm, door_y - 25*mm, floor_z + latch_z) })
bought("C-24", "latch with roller", "door", "latch", 0.22*kg, 8,
       { spot(door_x - 13*mm, front_y - 20*mm, floor_z + latch_z) })
bought("C-25", "hinge pin M8", "door", "hinge", 0.03*kg, 0.6,
       { spot(-pin_x, front_y - bore_y, floor_z + door_z0 + door_high),
         spot(-pin_x, front_y - bore_y, floor_z + door_z0) })
bought("C-26", "clamp stud M5 with sleeve and nut", "door", "screw", 0.012*kg, 0.3, clamps)
bought("A-20", "slide knob", "furnace", "knob", 0.04*kg, 1.2,
       { spot(0*mm, front_y - 20*mm, wash_z), spot(0*mm, ash_in - 12*mm, ash_z - 8*mm) })
bought("D-21", "ash door hinge", "air", "hinge", 0.09*kg, 2.5,
       { spot(-ash_door_x, ash_front - 10*mm, ash_z + 30*mm), spot(-ash_door_x, ash_front - 10*mm, ash_z - 30*mm) })
bought("D-22", "ash door latch", "air", "latch", 0.12*kg, 4, { spot(ash_door_x, ash_front - 15*mm, ash_z) })
local level_x, level_y0, level_y1 = stand_x - 32*mm, curve_y, shell_y - 40*mm
bought("B-20", "levelling screw M10", "base", "foot", 0.06*kg, 0.9,
       { spot(-level_x, level_y0, 0*mm), spot(level_x, level_y0, 0*mm), spot(-level_x, level_y1, 0*mm),
         spot(level_x, level_y1, 0*mm) })
bought("S-20", "screws of the shell", "shell", "screw", 0.18*kg, 3, { spot(0*mm, shell_y, base_t + shell_high/2) })

-- ---- joints -----------------------------------------------------------------------------------------------------

-- Gas-tight fillet along an edge standing on a face, and the same as an interrupted seam that only holds.
local tight_throat, hold_throat = 2.5*mm, 2*mm
local function tight(name, kind, a, b, throat)
    joint { name = name, kind = kind, seam = "fillet", throat = throat or tight_throat, gap = 0.5*mm, tight = true,
            a = a, b = b }
end
local thin = min(tight_throat, 0.9*duct) -- throat on the sheet of the air boxes
local function stitched(name, kind, a, b)
    joint { name = name, kind = kind, seam = "fillet", throat = hold_throat, gap = 0.5*mm, stitch = 25*mm,
            pitch = 100*mm, a = a, b = b }
end
for _, one in ipairs { "left", "right" } do
    local side, lap = one .. " side", one .. " lap"
    local flange = one == "left" and "right flange" or "left flange" -- the back wall is seen from behind
    tight(side .. " on floor", "tee", { side, edge = "bottom" }, { "furnace floor", face = "main" })
    tight(side .. " under roof", "tee", { side, edge = "top" }, { "roof", face = "main" })
    joint { name = side .. " hook to back wall", kind = "interlock", seam = "fillet", throat = tight_throat,
            gap = fit + 0.2*mm, tight = true, a = { side, edge = "hook.tip" }, b = { "back wall", face = "main" } }
    joint { name = side .. " caught behind", kind = "interlock", seam = "none", gap = r_wall + fit,
            a = { "back wall", edge = flange .. ".tip" }, b = { side, face = "rear flange" } }
    tight("frame lap on " .. side, "lap", { "front frame", edge = lap .. ".tip" }, { side, face = "main" })
end
tight("back wall on floor", "tee", { "back wall", edge = "bottom" }, { "furnace floor", face = "main" })
tight("back wall under roof", "tee", { "back wall", edge = "top" }, { "roof", face = "main" })
tight("front frame on floor", "tee", { "front frame", edge = "bottom" }, { "furnace floor", face = "main" })
tight("front frame under roof", "tee", { "front frame", edge = "top" }, { "roof", face = "main" })
tight("collar on roof", "tee", { "flue collar", edge = "bottom" }, { "roof", face = "main" })
joint { name = "collar seam", kind = "butt", seam = "square butt", throat = 2*mm, gap = 0.8*mm, tight = true,
        a = { "flue collar", edge = "left" }, b = { "flue collar", edge = "ring.tip" } }
tight("jacket left on back wall", "tee", { "rear jacket", edge = "left flange.tip" },
      { "back wall", face = "main" }, thin)
tight("jacket right on back wall", "tee", { "rear jacket", edge = "right flange.tip" },
      { "back wall", face = "main" }, thin)
tight("jacket top on back wall", "tee", { "rear jacket", edge = "cover.tip" }, { "back wall", face = "main" }, thin)
tight("jacket on floor", "tee", { "rear jacket", edge = "bottom" }, { "furnace floor", face = "main" }, thin)
tight("airwash cover on frame", "tee", { "airwash channel", edge = "cover.tip" },
      { "front frame", face = "main" }, thin)
joint { name = "left side rest on wall", kind = "lap", seam = "fillet", throat = hold_throat, gap = 0.5*mm,
        stitch = 25*mm, pitch = 60*mm,
        a = { "side rest", edge = "bottom" }, b = { "left side", face = "main" } }
joint { name = "right side rest on wall", kind = "lap", seam = "fillet", throat = hold_throat, gap = 0.5*mm,
        stitch = 25*mm, pitch = 60*mm,
        a = { "side rest", edge = "bottom", place = 2 }, b = { "right side", face = "main" } }
stitched("rear rest on back wall", "lap", { "rear rest", edge = "bottom" }, { "back wall", face = "main" })
stitched("left baffle rest on wall", "lap", { "baffle rest", edge = "bottom" }, { "left side", face = "main" })
stitched("right baffle rest on wall", "lap", { "baffle rest", edge = "bottom", place = 2 },
         { "right side", face = "main" })
joint { name = "grate seat under floor", kind = "lap", seam = "fillet", throat = hold_throat, gap = 0.5*mm,
        stitch = 25*mm, pitch = 60*mm,
        a = { "grate seat", edge = "left" }, b = { "furnace floor", face = "main" } }
joint { name = "throat plate on rear rest", kind = "lap", seam = "none", gap = 0.5*mm,
        a = { "rear rest", edge = "seat.tip" }, b = { "throat plate", face = "main" } }
joint { name = "baffle on airwash channel", kind = "lap", seam = "none", gap = 1*mm,
        a = { "upper baffle", edge = "front" }, b = { "front frame", face = "main" } }
for _, one in ipairs { "left", "right" } do
    tight("ash box " .. one .. " under floor", "tee", { "ash box", edge = one .. " side.tip" },
          { "furnace floor", face = "main" }, thin)
    stitched(one .. " stand under floor", "lap", { one .. " stand", edge = "head.tip" },
             { "furnace floor", face = "main" })
    joint { name = one .. " stand on base plate", kind = "lap", seam = "none", gap = 0.5*mm,
            a = { one .. " stand", edge = "foot.tip" }, b = { "base plate", face = "main" } }
    joint { name = "rear panel on " .. one .. " shell", kind = "lap", seam = "none", gap = 0.5*mm,
            a = { one .. " shell", edge = "rear flange.tip" }, b = { "rear panel", face = "main" } }
    joint { name = "top plate on " .. one .. " shell", kind = "tee", seam = "none", gap = 1*mm,
            a = { one .. " shell", edge = "top" }, b = { "top plate", face = "main" } }
end
tight("ash box to air box", "tee", { "ash box", edge = "top" }, { "air box", face = "front side" }, thin)
tight("ash front on ash box", "tee", { "ash box", edge = "bottom" }, { "ash front", face = "main" }, thin)
tight("ash front on floor", "corner", { "ash front", edge = "top" }, { "furnace floor" })
tight("air box front under floor", "tee", { "air box", edge = "front side.tip" },
      { "furnace floor", face = "main" }, thin)
tight("air box rear under floor", "tee", { "air box", edge = "rear side.tip" },
      { "furnace floor", face = "main" }, thin)
tight("air box left end", "corner", { "air box", edge = "left" }, { "air box end" }, thin)
tight("air box right end", "corner", { "air box", edge = "right" }, { "air box end", place = 2 }, thin)
joint { name = "spigot on air box", kind = "tee", seam = "fillet", throat = 1.5*mm, gap = 0.5*mm, tight = true,
        a = { "air spigot", edge = "bottom" }, b = { "air box", face = "rear side" } }
stitched("shield foot left", "lap", { "rear heat shield", edge = "left foot.tip" },
         { "right side", face = "rear flange" })
stitched("shield foot right", "lap", { "rear heat shield", edge = "right foot.tip" },
         { "left side", face = "rear flange" })
for i = 1, 4 do
    joint { name = "gusset foot " .. i, kind = "tee", seam = "fillet", throat = hold_throat, gap = 0.5*mm,
            a = { "gusset", edge = "side", place = i }, b = { i <= 2 and "left stand" or "right stand",
                                                              face = "main" } }
    stitched("roof bracket " .. i, "lap", { "roof bracket", edge = "foot.tip", place = i }, { "roof", face = "main" })
end
for i = 1, 4 do
    stitched("shell foot " .. i, "lap", { "shell foot", edge = "top", place = i },
             { i <= 2 and "left shell" or "right shell", face = "main" })
    stitched("guide spacer " .. i, "lap", { "guide spacer", edge = "bottom", place = i },
             { i <= 2 and "front frame" or "ash door", face = "main" })
    stitched("guide cover " .. i, "lap", { "guide spacer", edge = "top", place = i }, { "guide cover", place = i })
end
joint { name = "lower fascia on under shield", kind = "lap", seam = "none", gap = 0.5*mm,
        a = { "lower fascia", edge = "foot.tip" }, b = { "under shield", face = "main" } }
stitched("plinth on base plate", "tee", { "plinth", edge = "bottom" }, { "base plate", face = "main" })
stitched("left tray rest", "lap", { "tray rest", edge = "bottom" }, { "left stand", face = "main" })
stitched("right tray rest", "lap", { "tray rest", edge = "bottom", place = 2 }, { "right stand", face = "main" })
for i = 1, 2 do
    joint { name = "hinge bracket " .. i, kind = "tee", seam = "fillet", throat = 3*mm, gap = 0.5*mm,
            a = { "hinge bracket", edge = "root", place = i }, b = { "front frame", face = "main" } }
    joint { name = "glass rest " .. i, kind = "tee", seam = "fillet", throat = hold_throat, gap = 0.5*mm,
            a = { "glass rest", edge = "bottom", place = i }, b = { "door frame", face = "main" } }
end
joint { name = "latch keeper on frame", kind = "tee", seam = "fillet", throat = 3*mm, gap = 0.5*mm,
        a = { "latch keeper", edge = "root" }, b = { "front frame", face = "main" } }
joint { name = "handle plate on door", kind = "lap", seam = "fillet", throat = hold_throat, gap = 0.5*mm,
        a = { "handle plate", edge = "left" }, b = { "door frame", face = "main" } }
joint { name = "pan handle on pan", kind = "tee", seam = "fillet", throat = 1.5*mm, gap = 0.5*mm,
        a = { "pan handle", edge = "left leg.tip" }, b = { "ash pan", face = "front side" } }

-- ---- air openings: free areas with the slides open, heights of their middles above the room's floor -------------

local function slot_area(length, width) return (length - width)*width + pi/4*width*width end
opening { name = "primary slots", kind = "primary", area = ash_slots*slot_area(ash_slot_l, ash_slot_w),
          height = ash_z + 6*mm }
opening { name = "airwash slots", kind = "wash", area = wash_slots*slot_area(slot_l, slot_w), height = wash_z }
opening { name = "rear jets", kind = "rear jet", area = jets*pi/4*jet_d*jet_d, height = floor_z + jet_z,
          hole = jet_d }
