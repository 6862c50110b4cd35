-- Invented for demonstration; not a tested appliance.
--
-- Stove b: a round room heater of 5 kW. A welded furnace of bent walls stands on a round floor inside a rolled
-- shell; the ash chamber below is a rolled skirt; both doors are rolled to the shell's radius and lie flush with it.
-- At the front, from inside out: fire, door frame (rolled, welded to the furnace), rope, door, room.
-- All round parts share one upright axis. "theta" is the angle round it, 0 at the front, growing to the right.
-- "flat places" are points in plan from the axis: x to the right, y to the back.

stove { name = "b", title = "Round room heater 5 kW",
        note = "Invented for demonstration; not a tested appliance.",
        duty = { output = 5*kW, refuel = 50*min, efficiency = 0.75, fuel = "beech logs" } }

local D = parameter("shell_diameter", 480*mm, { min = 470*mm, max = 520*mm }, "outside diameter of the shell")
local H = parameter("height", 1140*mm, { min = 1040*mm, max = 1200*mm }, "floor to top plate")
local W = parameter("firebox_width", 300*mm, { min = 280*mm, max = 310*mm }, "clear width between the steel side walls")
local FH = parameter("firebox_height", 600*mm, { min = 550*mm, max = 650*mm }, "furnace floor to furnace roof")
local ASH = parameter("ash_height", 150*mm, { min = 140*mm, max = 190*mm }, "height of the ash chamber")
local PL = parameter("plinth_height", 40*mm, { min = 40*mm, max = 80*mm }, "height of the plinth ring")
local ROPE = parameter("door_rope", 10*mm, { min = 8*mm, max = 12*mm }, "diameter of the door ropes")
local FLUE = parameter("flue_diameter", 150*mm, { min = 130*mm, max = 150*mm }, "inside diameter of the flue tube")
local LIN = parameter("lining", 30*mm, { min = 20*mm, max = 30*mm }, "thickness of the lining boards")
local GRATE = min(W - 90*mm, -- its seat stays clear of the jet channel's slot
        parameter("grate_diameter", 160*mm, { min = 130*mm, max = 160*mm }, "diameter of the cast grate, at most"))

-- sheets; inside radii that the press dies make and DIN 6935 allows along the rolling direction too
local t_base, t_wall, t_skirt, t_shell, t_door = 6*mm, 4*mm, 3*mm, 2*mm, 4*mm
local r2, r3, r4 = 3*mm, 5*mm, 6*mm
local O = 0*mm
local close = 0.15*mm -- a flat part against a rolled one: just free of it

-- radii, from the outside inwards
local shell_out = D/2
local shell_in = shell_out - t_shell
local shell_mid = shell_out - t_shell/2
local door_in = shell_out - t_door
local door_mid = shell_out - t_door/2
local frame_out = door_in - 0.75*ROPE         -- the rope is pressed by a quarter of its diameter
local frame_in = frame_out - t_wall
local frame_mid = frame_out - t_wall/2
local skirt_in = frame_out - t_skirt          -- the skirt's outside lines up with the door frame's
local shield_in = shell_in - 30*mm
local yc = shell_out                          -- the axis stands this far behind the foremost point

-- heights
local base_z = PL
local base_top = base_z + t_base
local floor_z = base_top + ASH
local wall_z = floor_z + t_wall               -- walls and door frame stand on the floor
local roof_z = wall_z + FH
local roof_top = roof_z + t_wall
local top_z = H - 4*mm                        -- underside of the top plate

-- ---- small helpers ------------------------------------------------------------------------------------------

local function arc(radius, theta) return radius*(theta/rad) end
local function turn_of(length, radius) return (length/radius)*rad end
local function polar(radius, theta) return { radius*sin(theta), -radius*cos(theta) } end
local axis_up = function(theta) return { axis = "up", angle = theta, about = { O, yc, O } } end
-- a part in plan about the axis, its underside at height z
local function plan(z, theta) return { at = { O, yc, z }, x = "right", y = "back", surface = "rear",
        turn = theta and axis_up(theta) } end

-- A rolled part standing upright: inside radius, height, from angle to angle (or all round with a seam of 1 mm at
-- the back). It starts and ends with a flat of 4 mm, as the rolls leave it. holes = { { shape, z =, at = theta } }.
local end_flat, seam_gap = 4*mm, 0.7*mm
local function rolled(t)
    local mid = t.inside + t.thickness/2
    local whole = t.from == nil
    local from = whole and -180*deg or t.from + turn_of(end_flat, mid)
    local sweep = whole and 360*deg - turn_of(end_flat + seam_gap, mid) or t.to - t.from - 2*turn_of(end_flat, mid)
    local holes = {}
    for i, hole_here in ipairs(t.holes or {}) do
        holes[i] = { hole_here[1], along = hole_here.z, angle = hole_here.at - from }
    end
    piece { number = t.number, name = t.name, group = t.group, role = t.role, material = "S235",
            thickness = t.thickness,
            face = { outline = rectangle { t.height, end_flat },
                     bends = { { on = "top", name = "roll", kind = "roll", radius = t.inside, angle = sweep,
                                 height = (not whole) and end_flat or nil, holes = holes } } },
            place = { at = { -end_flat, yc - mid, t.z }, x = "up", y = "right", turn = axis_up(from) } }
    if whole then
        joint { name = t.name .. " seam", kind = "butt", seam = "square butt", throat = t.thickness, gap = 1.3*mm,
                a = { t.name, edge = "bottom" }, b = { t.name, edge = "roll.tip" } }
    end
end

local function middle(w, h_, corner) return window { outline = rectangle { w, h_, at = { -w/2, -h_/2 },
        corner = corner } } end

-- ---- subassemblies ------------------------------------------------------------------------------------------

group("base", { title = "Base and plinth", explode = { O, O, -250*mm } })
group("ash", { title = "Ash chamber", explode = { O, O, -100*mm } })
group("furnace", { title = "Furnace", explode = { O, O, 150*mm } })
group("lining", { title = "Lining and grate", explode = { O, -350*mm, 150*mm } })
group("air", { title = "Air ways", explode = { -350*mm, O, 100*mm } })
group("door", { title = "Fire door", explode = { O, -600*mm, 150*mm } })
group("ash door", { title = "Ash door", explode = { O, -600*mm, -100*mm } })
group("shell", { title = "Shell", explode = { O, 500*mm, 200*mm } })
group("top", { title = "Top", explode = { O, O, 600*mm } })

-- ---- furnace walls: where the flange meets the rolled door frame ----------------------------------------------

-- The wall's front flange is a chord of the door frame's inside. `lean` is the angle of its middle: such that the
-- outside of the side wall comes to W/2 + t. Found by halving.
local flange_b = 26*mm
local touch = frame_in - close
local beta = asin(flange_b/2/touch)
local lo, hi = 5*deg, 80*deg
for _ = 1, 50 do
    local try = (lo + hi)/2
    local half = touch*sin(try + beta) + (r4 + t_wall)*(1 - sin(try))
    if half < W/2 + t_wall then lo = try else hi = try end
end
local lean = (lo + hi)/2
local theta_bend, theta_tip = lean + beta, lean - beta
local a = W/2
local back = W/2                              -- inside of the back wall, from the axis
local cut = 0.35*W                            -- the back corners are cut off by this
local front_y = -touch*cos(theta_bend) + (r4 + t_wall)*cos(lean) -- where the side wall's flat begins

-- angles of the openings, left and right alike
local theta_open = theta_tip - turn_of(4*mm, frame_mid)       -- edge of the fire opening
local theta_door = theta_open + turn_of(28*mm, door_mid)      -- edge of the doors
local theta_pin = theta_door + turn_of(26*mm, shell_out)      -- hinge pins
local theta_frame = theta_pin + turn_of(16*mm, frame_mid)     -- edge of the door frame
local open_z0, open_z1 = wall_z + 50*mm, roof_z - 130*mm      -- fire opening
local door_z0, door_z1 = open_z0 - 28*mm, open_z1 + 28*mm
local ash_z0, ash_z1 = base_top + 36*mm, floor_z - 36*mm      -- ash opening
local ash_door_z0, ash_door_z1 = ash_z0 - 20*mm, ash_z1 + 20*mm
local hinge_z = { door_z0 + 60*mm, door_z1 - 73*mm, ash_door_z0 + 12*mm, ash_door_z1 - 25*mm }
local latch_z = { (door_z0 + door_z1)/2, (ash_door_z0 + ash_door_z1)/2 }

-- ---- furnace ------------------------------------------------------------------------------------------------

-- risers bring wash air up outside the side walls; as far forward as the door frame leaves room
local riser_depth, riser_width, riser_h = 18*mm, 40*mm, FH - 6*mm
local wall_out = a + t_wall
local riser_y = max(-115*mm, -sqrt((frame_in - 5*mm)*(frame_in - 5*mm) - (wall_out + riser_depth)*(wall_out
        + riser_depth)))
local wash_h = 90*mm                          -- height of the wash channel
local jet_w = 2*(a - cut - LIN*tan(22.5*deg) - 4*mm)
local jet_h = 250*mm

-- round floor: grate opening, slots that feed the risers and the rear jet channel
local floor_holes = { hole { at = { O, O }, d = GRATE + 8*mm },
                      slot { at = { O, back - 12*mm }, length = jet_w - 12*mm, width = 10*mm } }
for _, side in ipairs { -1, 1 } do
    floor_holes[#floor_holes + 1] = slot { at = { side*(wall_out + riser_depth/2 - 1*mm), riser_y + riser_width/2 },
                                           length = riser_width - 6*mm, width = 12*mm, turn = 90*deg }
end
local f0, f1 = polar(frame_out, -theta_frame), polar(frame_out, theta_frame)
piece { number = "B-01", name = "furnace floor", group = "furnace", role = "firebox wall", material = "S235",
        thickness = t_wall,
        face = { outline = polygon { { f0[1], f0[2], sweep = 2*theta_frame, edge = "front rim" },
                                     { f1[1], f1[2], sweep = 180*deg - theta_frame, edge = "right rim" },
                                     { O, frame_out, sweep = 180*deg - theta_frame, edge = "left rim" } },
                 holes = floor_holes },
        place = plan(floor_z) }

-- half of the furnace wall in one piece: side, cut-off back corner, half of the back, and the flange on the frame
local d_mid = (a + back - cut)/sqrt(2) + t_wall/2
local corner_y = sqrt(2)*d_mid - (a + t_wall/2)               -- mid-lines of side and corner meet here
local corner_x = sqrt(2)*d_mid - (back + t_wall/2)
local set45 = (r4 + t_wall/2)*tan(22.5*deg)
local side_flat = corner_y - set45 - front_y
local slope_flat = (a + t_wall/2 - corner_x)*sqrt(2) - 2*set45
local back_flat = corner_x - set45 - 0.25*mm
piece { number = "B-02", name = "left wall", group = "furnace", role = "firebox wall", material = "S235",
        thickness = t_wall,
        face = { outline = rectangle { side_flat, FH },
                 holes = { slot { at = { riser_y + 14*mm - front_y, FH - 34*mm }, length = 36*mm, width = 14*mm,
                         turn = 90*deg } },
                 bends = { { on = "right", name = "slope", angle = 45*deg, radius = r4, dims = "tangent",
                         height = slope_flat,
                             face = { bends = { { on = "tip", name = "back", angle = 45*deg, radius = r4,
                                     dims = "tangent",
                                                  height = back_flat } } } },
                           { on = "left", name = "flange", angle = 90*deg - lean, radius = r4, dims = "tangent",
                                   height = flange_b } } },
        place = { at = { -(a + t_wall/2), yc + front_y, wall_z }, x = "back", y = "up" } }
mirror("left wall", { number = "B-03", name = "right wall", plane = "x", at = O })

-- rolled door frame with the fire opening
rolled { number = "B-04", name = "door frame", group = "furnace", role = "firebox wall", thickness = t_wall,
        inside = frame_in,
         from = -theta_frame, to = theta_frame, z = wall_z, height = FH,
         holes = { { middle(open_z1 - open_z0, 2*arc(frame_mid, theta_open), 8*mm), z = (open_z0 + open_z1)/2 - wall_z,
                 at = 0*deg } } }

-- roof: lies on the walls and on the door frame
local over = wall_out + 4*mm
local roof_sum = a + back - cut + (t_wall + 4*mm)*sqrt(2)
piece { number = "B-05", name = "furnace roof", group = "furnace", role = "firebox wall", material = "S235",
        thickness = t_wall,
        face = { outline = polygon { { f0[1], f0[2], sweep = 2*theta_frame, edge = "front rim" }, { f1[1], f1[2] },
                                     { over, f1[2] + 25*mm }, { over, roof_sum - over }, { roof_sum - over, over },
                                     { over - roof_sum, over }, { -over, roof_sum - over }, { -over, f1[2] + 25*mm } },
                 holes = { hole { at = { O, O }, d = FLUE - 13*mm } } },
        place = plan(roof_z) }

-- baffle: flames turn round its front lip; deflector above it sends the gas to the back once more
local free = 1.5*mm
local inner_sum = a + back - cut - 1.5*free
local baffle_z, deflector_z = roof_z - 170*mm, roof_z - 70*mm
local baffle_front = -60*mm
piece { number = "B-06", name = "baffle", group = "furnace", role = "baffle", material = "S235", thickness = t_wall,
        face = { outline = polygon { { free - a, baffle_front, edge = "front" }, { a - free, baffle_front },
                                     { a - free, inner_sum - a + free }, { inner_sum - back + free, back - free },
                                     { back - free - inner_sum, back - free }, { free - a, inner_sum - a + free } },
                 bends = { { on = "front", name = "lip", radius = r4, height = 30*mm } } },
        place = plan(baffle_z) }
local deflector_back = back - 50*mm
local wash_y = riser_y + 28*mm                -- middle of the wash channel's upright web
piece { number = "B-07", name = "deflector", group = "furnace", role = "baffle", material = "S235", thickness = t_skirt,
        face = { outline = polygon { { free - a, wash_y + 2*mm }, { a - free, wash_y + 2*mm },
                                     { a - free, inner_sum - a + free }, { inner_sum - deflector_back, deflector_back },
                                     { deflector_back - inner_sum, deflector_back },
                                             { free - a, inner_sum - a + free } } },
        place = plan(deflector_z) }
-- rails on the side walls carry baffle and deflector
local rail_l, rail_y = 50*mm, -16*mm
local function rail(z) -- left and right
    return { at = { -a + 25*mm, yc + rail_y, z }, x = "back", y = "left", surface = "front" },
           { at = { a - 25*mm, yc + rail_y + rail_l, z }, x = "front", y = "right", surface = "front" }
end
local rail_1, rail_2 = rail(baffle_z)
local rail_3, rail_4 = rail(deflector_z)
piece { number = "B-08", name = "baffle rail", group = "furnace", role = "other", material = "S235",
        thickness = t_skirt,
        face = { outline = rectangle { rail_l, 25*mm },
                 bends = { { on = "top", name = "leg", angle = -90*deg, radius = r3, height = 25*mm } } },
        places = { rail_1, rail_2, rail_3, rail_4 } }

-- ring under the floor that the cast grate lies on
piece { number = "B-09", name = "grate seat", group = "furnace", role = "grate seat", material = "S235",
        thickness = t_wall,
        face = { outline = disc { d = GRATE + 50*mm }, holes = { hole { at = { O, O }, d = GRATE - 16*mm } } },
        place = plan(floor_z - t_wall) }

-- log guard: loose, stands behind the fire opening and keeps logs from the glass
local guard_w = 2*touch*sin(theta_tip) - 30*mm
piece { number = "B-10", name = "log guard", group = "furnace", role = "other", material = "S235", thickness = t_skirt,
        flip = true,
        face = { outline = rectangle { guard_w, 75*mm }, holes = { row { slot { at = { 40*mm, 40*mm }, length = 36*mm,
                width = 8*mm,
                 turn = 90*deg }, step = { (guard_w - 80*mm)/6, O }, count = 7 } },
                 bends = { { on = "left", name = "left wing", angle = -90*deg, radius = r3, height = 25*mm },
                           { on = "right", name = "right wing", angle = -90*deg, radius = r3, height = 25*mm } } },
        place = { at = { -guard_w/2, yc + front_y + 2*mm, wall_z + LIN }, x = "right", y = "up", surface = "front" } }

-- ---- air ways -----------------------------------------------------------------------------------------------

-- riser: channel on the outside of the side wall, open to the floor slot below, closed by a lid above
piece { number = "B-11", name = "left riser", group = "air", role = "air way", material = "S235", thickness = t_shell,
        face = { outline = rectangle { riser_width, riser_h },
                 bends = { { on = "left", name = "front leg", radius = r2, height = riser_depth },
                           { on = "right", name = "back leg", radius = r2, height = riser_depth },
                           { on = "top", name = "lid", radius = r2, height = riser_depth - 0.3*mm } } },
        place = { at = { -(wall_out + riser_depth), yc + riser_y, wall_z }, x = "back", y = "up", surface = "rear" } }
mirror("left riser", { number = "B-12", name = "right riser", plane = "x", at = O })

-- wash channel under the roof: its floor runs to the door frame and leaves a slot that blows down the glass
local wash_slot = 2.2*mm
local wash_half = a - 0.5*mm
local web_h = wash_h - r2 - t_shell
local fy = function(y) return wash_y - (r2 + t_shell/2) - y end -- plan y to the child face's y
local tip_r = frame_in - wash_slot
local tip_theta = asin((tip_r - t_wall)*sin(theta_tip)/tip_r) - turn_of(2*mm, tip_r)
local tip_p = polar(tip_r, tip_theta)
local wash_knee = min(fy(front_y + 2*mm), fy(riser_y + 6*mm))
piece { number = "B-13", name = "wash channel", group = "air", role = "air way", material = "S235", thickness = t_shell,
        face = { outline = rectangle { 2*wash_half, web_h },
                 bends = { { on = "bottom", name = "floor", radius = r2, dims = "tangent",
                             face = { outline = polygon { { O, O }, { 2*wash_half, O }, { 2*wash_half, wash_knee },
                                          { wash_half + tip_p[1], fy(tip_p[2]), sweep = 2*tip_theta,
                                                  edge = "slot edge" },
                                          { wash_half - tip_p[1], fy(tip_p[2]) }, { O, wash_knee } } } } } },
        place = { at = { -wash_half, yc + wash_y, roof_z - web_h }, x = "right", y = "up" } }

-- rear jet channel: takes warm air from the ash chamber to two rows of jets in the back wall
piece { number = "B-14", name = "jet channel", group = "air", role = "air way", material = "S235", thickness = t_shell,
        face = { outline = rectangle { jet_w, jet_h },
                 holes = { row { hole { at = { jet_w/2, 110*mm }, d = 6*mm }, step = { O, 25*mm }, count = 5 } },
                 bends = { { on = "left", name = "left leg", angle = -90*deg, radius = r2, height = 25*mm },
                           { on = "right", name = "right leg", angle = -90*deg, radius = r2, height = 25*mm },
                           { on = "top", name = "lid", angle = -90*deg, radius = r2, height = 24.7*mm } } },
        place = { at = { -jet_w/2, yc + back - 25*mm, wall_z }, x = "right", y = "up", surface = "front" } }

-- combustion air slide under the base plate, between two pairs of strips
local inlet = 80*mm
piece { number = "B-15", name = "air slide", group = "air", role = "air control", material = "S235",
        thickness = t_shell, flip = true,
        face = { outline = polygon { { -12*mm, -shell_out + 10*mm, round = 6*mm },
                { 12*mm, -shell_out + 10*mm, round = 6*mm },
                                     { 12*mm, -inlet/2 - 15*mm, round = 4*mm },
                                             { 55*mm, -inlet/2 - 15*mm, round = 3*mm },
                                     { 55*mm, inlet/2 + 15*mm, round = 3*mm },
                                             { -55*mm, inlet/2 + 15*mm, round = 3*mm },
                                     { -55*mm, -inlet/2 - 15*mm, round = 3*mm },
                                             { -12*mm, -inlet/2 - 15*mm, round = 4*mm } },
                 holes = { hole { at = { O, -shell_out + 18*mm }, d = 5.5*mm } } },
        place = { at = { O, yc, base_z - t_base }, x = "right", y = "back", surface = "rear" } }
local function pair(x, z) -- upright strip's place left and right, running to the back
    return { { at = { -x, yc, z }, x = "left", y = "front", surface = "rear" },
            { at = { x, yc, z }, x = "right", y = "back", surface = "rear" } }
end
local strip_l = inlet + 30*mm
piece { number = "B-16", name = "slide spacer", group = "air", role = "other", material = "S235", thickness = t_base,
        flip = true,
        face = { outline = rectangle { 20*mm, strip_l, at = { O, -strip_l/2 } },
                 holes = { row { hole { at = { 10*mm, -strip_l/2 + 14*mm }, d = 6.5*mm }, step = { O, strip_l - 28*mm },
                         count = 2 } } },
        places = pair(56*mm, base_z - t_base) }
piece { number = "B-17", name = "slide keeper", group = "air", role = "other", material = "S235", thickness = t_shell,
        flip = true,
        face = { outline = rectangle { 30*mm, strip_l, at = { -10*mm, -strip_l/2 } },
                 holes = { row { hole { at = { 10*mm, -strip_l/2 + 14*mm }, d = 6.5*mm }, step = { O, strip_l - 28*mm },
                         count = 2 } } },
        places = pair(56*mm, base_z - t_base - t_shell) }

-- ---- base and ash chamber -----------------------------------------------------------------------------------

local plinth_out = shell_out - 30*mm
local foot_out = skirt_in - 0.3*mm
-- the stove stands on four levelling screws in the base plate; the plinth ring hangs 3 mm above the floor
local function levelling(i) return polar(plinth_out - 22*mm, 60*deg*(i % 2) + 60*deg + 180*deg*(i // 2)) end
local base_holes, foot_holes = { hole { at = { O, O }, d = inlet - 10*mm } },
        { hole { at = { O, O }, d = 2*(foot_out - 22*mm) } }
for i = 0, 5 do -- bolts of the ash chamber
    local p = polar(foot_out - 11*mm, 30*deg + i*60*deg)
    base_holes[#base_holes + 1] = hole { at = { p[1], p[2] }, d = 7*mm }
    foot_holes[#foot_holes + 1] = hole { at = { p[1], p[2] }, d = 7*mm }
end
for i = 0, 3 do -- levelling screws, reached from above before the shell goes on
    local p = levelling(i)
    base_holes[#base_holes + 1] = hole { at = { p[1], p[2] }, d = 10.5*mm }
end
for _, side in ipairs { -1, 1 } do -- screws of the slide strips
    for _, end_ in ipairs { -1, 1 } do
        base_holes[#base_holes + 1] = hole { at = { side*66*mm, end_*(strip_l/2 - 14*mm) }, d = 6.5*mm }
    end
end
piece { number = "B-20", name = "base plate", group = "base", role = "base", material = "S235", thickness = t_base,
        face = { outline = disc { d = 2*shell_out }, holes = base_holes },
        place = plan(base_z) }
rolled { number = "B-21", name = "plinth ring", group = "base", role = "base", thickness = t_skirt,
        inside = plinth_out - t_skirt,
         z = 3*mm, height = PL - 3*mm,
         holes = { { middle(4.8*mm, 32*mm, 2*mm), z = PL - 8.6*mm, at = 0*deg }, -- the slide's tongue
                   -- air in
                   { slot { at = { O, O }, length = 90*mm, width = 16*mm, turn = 90*deg }, z = PL/2 - 2*mm,
                           at = 110*deg },
                   { slot { at = { O, O }, length = 90*mm, width = 16*mm, turn = 90*deg }, z = PL/2 - 2*mm,
                           at = -110*deg } } }
rolled { number = "B-22", name = "skirt", group = "ash", role = "air way", thickness = t_skirt, inside = skirt_in,
         z = base_top, height = ASH,
         holes = { { middle(ash_z1 - ash_z0, 2*arc(skirt_in + t_skirt/2, theta_open), 6*mm),
                 z = (ash_z0 + ash_z1)/2 - base_top, at = 0*deg } } }
piece { number = "B-23", name = "skirt foot ring", group = "ash", role = "other", material = "S235", thickness = t_wall,
        flip = true,
        face = { outline = disc { d = 2*foot_out }, holes = foot_holes },
        place = plan(base_top) }

-- ash pan on two rails; the rails keep it level with the opening
local pan_w = 2*skirt_in*sin(theta_open) - 22*mm
local pan_z = ash_z0 + 3*mm
local pan_h = ash_z1 - ash_z0 - 10*mm
piece { number = "B-24", name = "ash pan", group = "ash", role = "ash pan", material = "S235", thickness = t_shell,
        flip = true,
        face = { outline = rectangle { pan_w, pan_w },
                 bends = { { on = "bottom", name = "front", radius = r2, height = pan_h },
                           { on = "right", name = "right side", radius = r2, height = pan_h },
                           { on = "top", name = "back", radius = r2, height = pan_h },
                           { on = "left", name = "left side", radius = r2, height = pan_h } } },
        place = { at = { -pan_w/2, yc - pan_w/2, pan_z }, x = "right", y = "back", surface = "rear" } }
local pan_rail_l = pan_w - 10*mm
piece { number = "B-25", name = "pan rail", group = "ash", role = "other", material = "S235", thickness = t_shell,
        face = { outline = rectangle { pan_rail_l, 20*mm },
                 bends = { { on = "top", name = "leg", angle = -90*deg, radius = r2, height = pan_z - base_top } } },
        places = { { at = { -pan_w/2 + 17*mm, yc - pan_rail_l/2, pan_z }, x = "back", y = "left", surface = "front" },
                   { at = { pan_w/2 - 17*mm, yc + pan_rail_l/2, pan_z }, x = "front", y = "right",
                           surface = "front" } } }

-- ---- shell --------------------------------------------------------------------------------------------------

local shell_holes = {
    { middle(door_z1 - door_z0 + 6*mm, 2*arc(shell_mid, theta_door) + 6*mm, 2*mm), z = (door_z0 + door_z1)/2 - base_top,
            at = 0*deg },
    { middle(ash_door_z1 - ash_door_z0 + 6*mm, 2*arc(shell_mid, theta_door) + 6*mm, 2*mm),
            z = (ash_door_z0 + ash_door_z1)/2 - base_top, at = 0*deg } }
for _, z in ipairs(hinge_z) do -- hinge lugs come through here
    shell_holes[#shell_holes + 1] = { middle(12*mm, 30*mm, 2*mm), z = z + 3*mm - base_top, at = theta_pin }
end
for _, z in ipairs(latch_z) do
    shell_holes[#shell_holes + 1] = { middle(12*mm, 30*mm, 2*mm), z = z + 3*mm - base_top, at = -theta_pin }
end
for i = 0, 17 do -- room air in, all round the back and sides, above the floor
    shell_holes[#shell_holes + 1] = { slot { at = { O, O }, length = 60*mm, width = 9*mm },
            z = wall_z + 60*mm - base_top, at = (95 + 10*i - (i > 8 and 360 or 0))*deg }
end
rolled { number = "B-30", name = "shell", group = "shell", role = "shell", thickness = t_shell, inside = shell_in,
         z = base_top, height = top_z - base_top, holes = shell_holes }

-- clips: plinth to base plate, and under the top plate to centre it in the shell
local clip_w, clip_leg = 20*mm, 20*mm
local function behind(radius) return yc - sqrt(radius*radius - clip_w*clip_w/4) + close end
local function clip(radius, z, theta)
    return { at = { -clip_w/2, behind(radius), z }, x = "right", y = "down", surface = "rear", turn = axis_up(theta) }
end
local clips = {}
for i = 0, 3 do clips[#clips + 1] = clip(plinth_out - t_skirt, base_z, 45*deg + i*90*deg) end
for i = 0, 3 do clips[#clips + 1] = clip(shell_in - 0.6*mm, top_z, 45*deg + i*90*deg) end
piece { number = "B-31", name = "clip", group = "shell", role = "other", material = "S235", thickness = t_shell,
        face = { outline = rectangle { clip_w, clip_leg },
                 bends = { { on = "bottom", name = "leg", radius = r2, height = clip_leg } } },
        places = clips }

-- tabs on the base plate that the shell is screwed to: there is no room for a clip between shell and skirt
local tabs = {}
for i = 0, 3 do
    tabs[i + 1] = { at = { clip_w/2, behind(shell_in), base_top }, x = "left", y = "up", surface = "rear",
                    turn = axis_up(75*deg + i*70*deg) }
end
piece { number = "B-34", name = "shell tab", group = "base", role = "other", material = "S235", thickness = t_shell,
        flip = true,
        face = { outline = rectangle { clip_w, 22*mm }, holes = { hole { at = { clip_w/2, 14*mm }, d = 5.5*mm } } },
        places = tabs }

-- heat shield half round the back of the furnace, on four Z brackets
local shield_h = FH + 40*mm
rolled { number = "B-32", name = "rear shield", group = "shell", role = "shield", thickness = t_shell,
        inside = shield_in,
         from = 95*deg, to = 265*deg, z = wall_z, height = shield_h }
local z_leg, z_w = 20*mm, 24*mm
local slope_out = (a + back - cut)/sqrt(2) + t_wall           -- outside of the cut-off corner, from the axis
local z_web = sqrt(shield_in*shield_in - z_leg*z_leg) - 0.1*mm - slope_out
local brackets = {}
for _, theta in ipairs { 135*deg, -135*deg } do
    for _, z in ipairs { 90*mm, FH - 90*mm } do
        brackets[#brackets + 1] = { at = { O, yc - slope_out, wall_z + z }, x = "right", y = "up", surface = "rear",
                turn = axis_up(theta) }
    end
end
piece { number = "B-33", name = "shield bracket", group = "shell", role = "other", material = "S235",
        thickness = t_shell,
        face = { outline = rectangle { z_leg, z_w, at = { -z_leg, O } },
                 bends = { { on = "right", name = "web", radius = r2, height = z_web,
                             face = { bends = { { on = "tip", name = "foot", angle = -90*deg, radius = r2,
                                     height = z_leg } } } } } },
        places = brackets }

-- ---- top ----------------------------------------------------------------------------------------------------

-- the flue tube drops over a ring on the roof; a second ring inside stops the connecting pipe
local ring_out = FLUE/2 - 0.3*mm
local flue_ring = { outline = disc { d = 2*ring_out }, holes = { hole { at = { O, O }, d = 2*ring_out - 12*mm } } }
piece { number = "B-40", name = "flue ring", group = "top", role = "flue collar", material = "S235", thickness = t_wall,
        face = flue_ring, places = { plan(roof_top), plan(H - 30*mm) } }
rolled { number = "B-41", name = "flue tube", group = "top", role = "flue collar", thickness = t_skirt, inside = FLUE/2,
         z = roof_top, height = H + 40*mm - roof_top }

-- top plate with a grille of radial slots
local grille_in, grille_out = FLUE/2 + 28*mm, shell_out - 34*mm
local grille = { hole { at = { O, O }, d = FLUE + 2*t_skirt + 10*mm } }
for i = 0, 23 do
    local theta = 7.5*deg + i*15*deg
    local p = polar((grille_in + grille_out)/2, theta)
    grille[#grille + 1] = slot { at = { p[1], p[2] }, length = grille_out - grille_in, width = 9*mm,
            turn = theta - 90*deg }
end
piece { number = "B-42", name = "top plate", group = "top", role = "top", material = "S235", thickness = t_wall,
        face = { outline = disc { d = 2*shell_out + 6*mm }, holes = grille },
        place = plan(top_z) }

-- store tray on the roof for four blocks of stone; four edges are bent down as legs
local oct = a - 20*mm
local ef, es = 0.40*oct, 0.43*oct             -- half lengths of the front and side edges
local tray_leg = 30*mm
local tray_bends = {}
for i, name in ipairs { "front leg", "right leg", "back leg", "left leg" } do
    tray_bends[i] = { on = name, name = "bend " .. name, angle = -90*deg, radius = r3, dims = "tangent",
                      height = tray_leg - r3 - t_skirt }
end
piece { number = "B-43", name = "store tray", group = "top", role = "other", material = "S235", thickness = t_skirt,
        flip = true,
        face = { outline = polygon { { -ef, -oct, edge = "front leg" }, { ef, -oct },
                                     { oct, -es, edge = "right leg" }, { oct, es }, { ef, oct, edge = "back leg" },
                                     { -ef, oct }, { -oct, es, edge = "left leg" }, { -oct, -es } },
                 holes = { hole { at = { O, O }, d = FLUE + 2*t_skirt + 10*mm } },
                 bends = tray_bends },
        place = { at = { O, yc, roof_top + tray_leg }, x = "right", y = "back", surface = "front" } }

-- ---- fire door and ash door ---------------------------------------------------------------------------------

local glass_arc = 2*arc(door_mid, theta_open) - 44*mm
local glass_h = open_z1 - open_z0 - 48*mm
rolled { number = "B-50", name = "fire door", group = "door", role = "door", thickness = t_door, inside = door_in,
         from = -theta_door, to = theta_door, z = door_z0, height = door_z1 - door_z0,
         holes = { { middle(glass_h, glass_arc, 12*mm), z = (open_z0 + open_z1)/2 - door_z0, at = 0*deg } } }
rolled { number = "B-60", name = "ash door", group = "ash door", role = "door", thickness = t_door, inside = door_in,
         from = -theta_door, to = theta_door, z = ash_door_z0, height = ash_door_z1 - ash_door_z0 }

-- ribs inside the opening: they hold the rope from within and carry the glass clamps
local theta_rib = theta_open - turn_of(6*mm, frame_mid)
local rib_in, rib_out = frame_in - 8*mm, door_in - close
local rib_end = theta_rib - turn_of(3.4*mm, rib_in)
local q0, q1, q2, q3 = polar(rib_out, -rib_end), polar(rib_out, rib_end), polar(rib_in, rib_end),
        polar(rib_in, -rib_end)
local rib_z0, rib_z1 = open_z0 + 4*mm, open_z1 - 4*mm - t_skirt
piece { number = "B-51", name = "door rib", group = "door", role = "door", material = "S235", thickness = t_skirt,
        flip = true,
        face = { outline = polygon { { q0[1], q0[2], sweep = 2*rib_end, edge = "outer" },
                { q1[1], q1[2], edge = "right end" },
                                     { q2[1], q2[2], sweep = -2*rib_end, edge = "inner" },
                                             { q3[1], q3[2], edge = "left end" } } },
        places = { plan(rib_z0), plan(rib_z1) } }
local strip_w = rib_out - rib_in - 0.3*mm
local strip_h = rib_z1 + t_skirt - rib_z0
piece { number = "B-52", name = "door strip", group = "door", role = "door", material = "S235", thickness = t_skirt,
        flip = true,
        face = { outline = rectangle { strip_w, strip_h } },
        places = { { at = { O, yc - rib_out + 0.1*mm, rib_z0 }, x = "back", y = "up",
                turn = axis_up(theta_rib - turn_of(1.5*mm, rib_out)) },
                   { at = { O, yc - rib_out + 0.1*mm, rib_z0 }, x = "back", y = "up",
                           turn = axis_up(turn_of(1.5*mm, rib_out) - theta_rib) } } }
-- glass clamps: small angles screwed to the ribs, two above and two below
local clamp_w = 20*mm
local clamp_r = door_in - 6.5*mm              -- glass 4 mm and a flat rope before and behind it
local clamp_leg = clamp_r - rib_in - 0.5*mm
local clamps = {}
for _, theta in ipairs { 0.6*theta_rib, -0.6*theta_rib } do
    clamps[#clamps + 1] = { at = { -clamp_w/2, yc - clamp_r, rib_z1 }, x = "right", y = "back", surface = "front",
            turn = axis_up(theta) }
    clamps[#clamps + 1] = { at = { clamp_w/2, yc - clamp_r, rib_z0 + t_skirt }, x = "left", y = "back",
            surface = "front", turn = axis_up(theta) }
end
piece { number = "B-53", name = "glass clamp", group = "door", role = "other", material = "S235", thickness = t_shell,
        face = { outline = rectangle { clamp_w, clamp_leg },
                 bends = { { on = "bottom", name = "leg", angle = -90*deg, radius = r2, height = 16*mm } } },
        places = clamps }

-- hinges: a body lug passes through the shell, a door lug lies on it; the pin stands outside the shell. At the left
-- a latch lug carries the handle; its turning cam catches behind one more body lug. Each door has its own set.
local lug_out, pin_r = shell_out + 29*mm, shell_out + 14*mm
local lug_half = turn_of(12*mm, shell_out)
local from_, to_ = -turn_of(58*mm, shell_out), -turn_of(31*mm, shell_out) -- where a door lug lies on its door
local function corner_of(radius, theta, more)
    local p = polar(radius, theta)
    for key, value in pairs(more or {}) do p[key] = value end
    return p
end
-- all three about theta = 0, the pin's place
local body_lug = polygon { corner_of(frame_out + close, -lug_half), corner_of(lug_out, -lug_half, { round = 6*mm }),
                           corner_of(lug_out, lug_half, { round = 6*mm }),
                           corner_of(frame_out + close, lug_half, { sweep = -2*lug_half, edge = "root" }) }
local door_lug = polygon { corner_of(shell_out + close, from_), corner_of(lug_out, from_, { round = 6*mm }),
                           corner_of(lug_out, lug_half, { round = 6*mm }),
                           corner_of(shell_out + 2.5*mm, lug_half, { round = 4*mm }),
                                   corner_of(shell_out + 2.5*mm, to_),
                           corner_of(shell_out + close, to_, { sweep = from_ - to_, edge = "root" }) }
local latch_lug = polygon { corner_of(shell_out + close, -to_), corner_of(shell_out + 2.5*mm, -to_),
                            corner_of(shell_out + 2.5*mm, -lug_half, { round = 4*mm }),
                            corner_of(lug_out, -lug_half, { round = 6*mm }),
                                    corner_of(lug_out, -from_, { round = 6*mm }),
                            corner_of(shell_out + close, -from_, { sweep = from_ - to_, edge = "root" }) }
local pin_hole = hole { at = { O, -pin_r }, d = 8.4*mm }
local function lug(number, name, group_, role, outline, hole_, places)
    piece { number = number, name = name, group = group_, role = role, material = "S235", thickness = t_base,
            flip = true,
            face = { outline = outline, holes = { hole_ } }, places = places }
end
local lifted = t_base + 1*mm                  -- a washer between the lugs
for i, door in ipairs { "fire", "ash" } do
    local low, high, catch = hinge_z[2*i - 1], hinge_z[2*i], latch_z[i]
    lug(({ "B-54", "B-61" })[i], door .. " body lug", ({ "furnace", "ash" })[i], "hinge", body_lug, pin_hole,
        { plan(low, theta_pin), plan(high, theta_pin), plan(catch, -theta_pin) })
    lug(({ "B-55", "B-62" })[i], door .. " door lug", ({ "door", "ash door" })[i], "hinge", door_lug, pin_hole,
        { plan(low + lifted, theta_pin), plan(high + lifted, theta_pin) })
    lug(({ "B-56", "B-63" })[i], door .. " latch lug", ({ "door", "ash door" })[i], "latch", latch_lug,
        hole { at = polar(pin_r, turn_of(40*mm, pin_r)), d = 8.4*mm }, { plan(catch + lifted, -theta_pin) })
end

for _, door in ipairs { "fire", "ash" } do
    local at = polar(pin_r, theta_pin)
    hinge { name = door .. " door", at = { at[1], yc + at[2] }, opens = 90*deg,
            carries = door == "ash" and { "ash door", "ash door rope" }
                or { "fire door", "glass clamp", "bent glass pane", "fire door rope", "glass rope, flat" } }
end

-- ---- joints -------------------------------------------------------------------------------------------------

-- `gap`: what the welder may bridge; a fillet no more than 0.5 mm + 0.2 throat (ISO 5817 level C, from memory)
local function weld(name, kind, seam, throat, gap, a_end, b_end, tight)
    joint { name = name, kind = kind, seam = seam, throat = throat, gap = gap, tight = tight or false, a = a_end,
            b = b_end }
end
local function touches(name, kind, gap, a_end, b_end) joint { name = name, kind = kind, seam = "none", gap = gap,
        a = a_end, b = b_end } end

for _, part in ipairs { "front", "right", "left" } do
    weld("floor to skirt, " .. part, "corner", "outside corner", 2*mm, 0.3*mm,
            { "furnace floor", edge = part .. " rim" }, { "skirt" }, true)
end
weld("floor to door frame", "corner", "outside corner", 2.5*mm, 0.6*mm, { "furnace floor", edge = "front rim" },
        { "door frame" }, true)
weld("roof to door frame", "corner", "outside corner", 2.5*mm, 0.6*mm, { "furnace roof", edge = "front rim" },
        { "door frame" }, true)
weld("wall halves", "butt", "square butt", 3*mm, 1*mm, { "left wall", edge = "back.tip" },
        { "right wall", edge = "back.tip" }, true)
for _, side in ipairs { "left", "right" } do
    local wall = side .. " wall"
    weld(wall .. " to floor", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "bottom" },
            { "furnace floor", face = "main" }, true)
    weld(wall .. " slope to floor", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "slope.right" },
            { "furnace floor", face = "main" }, true)
    weld(wall .. " back to floor", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "back.right" },
            { "furnace floor", face = "main" }, true)
    weld(wall .. " to roof", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "top" }, { "furnace roof", face = "main" },
            true)
    weld(wall .. " slope to roof", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "slope.left" },
            { "furnace roof", face = "main" }, true)
    weld(wall .. " back to roof", "tee", "fillet", 2.5*mm, 0.3*mm, { wall, edge = "back.left" },
            { "furnace roof", face = "main" }, true)
    weld(wall .. " to door frame", "lap", "fillet", 2.5*mm, 0.5*mm, { wall, edge = "flange.tip" }, { "door frame" },
            true)
    local riser = side .. " riser"
    weld(riser .. " front leg", "tee", "fillet", 1.5*mm, 0.3*mm, { riser, edge = "front leg.tip" },
            { wall, face = "main" }, true)
    weld(riser .. " back leg", "tee", "fillet", 1.5*mm, 0.3*mm, { riser, edge = "back leg.tip" },
            { wall, face = "main" }, true)
    weld(riser .. " lid", "tee", "fillet", 1.5*mm, 0.8*mm, { riser, edge = "lid.tip" }, { wall, face = "main" }, true)
    weld(riser .. " foot", "tee", "fillet", 1.5*mm, 0.3*mm, { riser, edge = "bottom" },
            { "furnace floor", face = "main" }, true)
    weld("wash channel to " .. wall, "tee", "fillet", 1.5*mm, 0.7*mm, { "wash channel", edge = side },
            { wall, face = "main" })
    joint { name = "jet channel to " .. wall, kind = "tee", seam = "fillet", throat = 1.5*mm, gap = 0.3*mm,
            stitch = 20*mm, pitch = 60*mm,
            a = { "jet channel", edge = side .. " leg.tip" }, b = { wall } }
end
weld("wash channel to roof", "tee", "fillet", 1.5*mm, 0.3*mm, { "wash channel", edge = "top" },
        { "furnace roof", face = "main" })
weld("jet channel to floor", "tee", "fillet", 1.5*mm, 0.3*mm, { "jet channel", edge = "bottom" },
        { "furnace floor", face = "main" })
weld("grate seat to floor", "lap", "fillet", 2.5*mm, 0.3*mm, { "grate seat", edge = "rim" },
        { "furnace floor", face = "main" })
for i = 1, 4 do
    weld("baffle rail " .. i, "lap", "fillet", 2*mm, 0.3*mm, { "baffle rail", edge = "leg.tip", place = i },
         { i % 2 == 1 and "left wall" or "right wall", face = "main" })
end
weld("foot ring to skirt", "corner", "fillet", 2*mm, 0.6*mm, { "skirt foot ring", edge = "rim" }, { "skirt" }, true)
touches("foot ring on base plate, bolted on a seal", "lap", 0.3*mm, { "skirt foot ring", edge = "rim" },
        { "base plate", face = "main" })
touches("shell on base plate", "corner", 0.6*mm, { "base plate", edge = "rim" }, { "shell" })
for i = 1, 2 do
    weld("pan rail " .. i, "tee", "fillet", 1.5*mm, 0.3*mm, { "pan rail", edge = "leg.tip", place = i },
            { "base plate", face = "main" })
end
for i = 1, 8 do
    local onto = i <= 4 and "base plate" or "top plate"
    weld("clip " .. i .. " to " .. onto, "lap", "fillet", 1.5*mm, 0.3*mm, { "clip", edge = "leg.tip", place = i },
            { onto, face = "main" })
    touches("clip " .. i .. " screwed", "lap", i <= 4 and 0.5*mm or 1*mm, { "clip", edge = "right", place = i },
            { i <= 4 and "plinth ring" or "shell" })
end
for i = 1, 4 do
    weld("shell tab " .. i, "tee", "fillet", 1.5*mm, 0.3*mm, { "shell tab", edge = "bottom", place = i },
            { "base plate", face = "main" })
    touches("shell tab " .. i .. " screwed", "lap", 0.5*mm, { "shell tab", edge = "right", place = i }, { "shell" })
end
for i = 1, 4 do
    touches("shield bracket " .. i .. " to shield, riveted", "lap", 0.5*mm,
            { "shield bracket", edge = "foot.tip", place = i }, { "rear shield" })
    weld("shield bracket " .. i, "lap", "fillet", 1.5*mm, 0.3*mm, { "shield bracket", edge = "left", place = i },
         { i <= 2 and "right wall" or "left wall" })
end
weld("flue ring to roof", "lap", "fillet", 2.5*mm, 0.3*mm, { "flue ring", edge = "rim", place = 1 },
        { "furnace roof", face = "main" }, true)
weld("flue tube to flue ring", "corner", "fillet", 2*mm, 0.6*mm, { "flue ring", edge = "rim", place = 1 },
        { "flue tube" }, true)
weld("pipe stop to flue tube", "corner", "fillet", 2*mm, 0.6*mm, { "flue ring", edge = "rim", place = 2 },
        { "flue tube" })
for _, leg in ipairs { "front leg", "right leg", "back leg", "left leg" } do
    touches("store tray, " .. leg, "tee", 0.3*mm, { "store tray", edge = "bend " .. leg .. ".tip" },
            { "furnace roof", face = "main" })
end
for i = 1, 2 do
    weld("door rib " .. i, "tee", "fillet", 2*mm, 0.8*mm, { "door rib", edge = "outer", place = i }, { "fire door" })
    weld("door strip " .. i, "tee", "fillet", 2*mm, 0.5*mm, { "door strip", edge = "left", place = i }, { "fire door" })
    weld("door rib " .. i .. " right end", "corner", "fillet", 2*mm, 0.9*mm,
            { "door rib", edge = "right end", place = i }, { "door strip" })
end
for i = 1, 4 do
    touches("glass clamp " .. i .. ", screwed", "lap", 0.3*mm, { "glass clamp", edge = "top", place = i },
            { "door rib", place = i % 2 == 1 and 2 or 1 })
end
for i, door in ipairs { "fire", "ash" } do
    for k = 1, 3 do
        weld(door .. " body lug " .. k, "tee", "fillet", 3*mm, 0.5*mm,
                { door .. " body lug", edge = "root", place = k },
                { ({ "door frame", "skirt" })[i] })
    end
    for k = 1, 2 do
        weld(door .. " door lug " .. k, "tee", "fillet", 3*mm, 0.5*mm,
                { door .. " door lug", edge = "root", place = k },
                { door .. " door" })
    end
    weld(door .. " latch lug", "tee", "fillet", 3*mm, 0.5*mm, { door .. " latch lug", edge = "root" },
            { door .. " door" })
end
for i = 1, 2 do
    touches("slide spacer " .. i .. ", screwed", "lap", 0.3*mm, { "slide spacer", edge = "left", place = i },
            { "base plate", face = "main" })
    touches("slide keeper " .. i .. ", screwed", "lap", 0.3*mm, { "slide keeper", edge = "right", place = i },
            { "slide spacer", place = i })
end

-- ---- lining, glass and what is bought -----------------------------------------------------------------------

do
    local board_h = baffle_z - 26*mm - wall_z
    local side_len = corner_y - 2*mm - LIN*tan(22.5*deg) - (front_y + 12*mm) - 2*mm
    item { number = "B-70", name = "side board", group = "lining", role = "lining", kind = "board",
            material = "vermiculite board", price = 9,
           shape = rectangle { side_len, board_h - LIN }, thickness = LIN,
           places = { { at = { -a + 0.5*mm, yc + front_y + 12*mm, wall_z + LIN }, x = "back", y = "up" },
                      { at = { a - 0.5*mm, yc + front_y + 12*mm + side_len, wall_z + LIN }, x = "front", y = "up" } } }
    local slope_in = (a + back - cut)/sqrt(2)
    local slope_w = cut*sqrt(2) - 2*LIN*tan(22.5*deg) - 3*mm
    item { number = "B-71", name = "corner board", group = "lining", role = "lining", kind = "board",
            material = "vermiculite board", price = 7,
           shape = rectangle { slope_w, board_h - LIN }, thickness = LIN,
           places = { { at = { slope_w/2, yc - slope_in + 0.5*mm, wall_z + LIN }, x = "left", y = "up",
                   turn = axis_up(135*deg) },
                      { at = { slope_w/2, yc - slope_in + 0.5*mm, wall_z + LIN }, x = "left", y = "up",
                              turn = axis_up(-135*deg) } } }
    local bed_sum = a + back - cut - 3*mm
    item { number = "B-72", name = "floor board", group = "lining", role = "lining", kind = "board",
            material = "vermiculite board", price = 8,
           shape = polygon { { 2*mm - a, front_y + 2*mm }, { a - 2*mm, front_y + 2*mm },
                   { a - 2*mm, bed_sum - a + 2*mm },
                             { bed_sum - back + 27*mm, back - 27*mm }, { back - 27*mm - bed_sum, back - 27*mm },
                                     { 2*mm - a, bed_sum - a + 2*mm } },
           holes = { hole { at = { O, O }, d = GRATE + 8*mm } }, thickness = LIN - 0.5*mm,
           place = { at = { O, yc, wall_z }, x = "right", y = "back" } }
    item { number = "B-73", name = "grate", group = "lining", role = "grate", kind = "cast", material = "EN-GJL-200",
            price = 14,
           shape = disc { d = GRATE }, holes = { grid { slot { at = { -0.15*GRATE, -0.2*GRATE }, length = 0.24*GRATE,
                   width = 9*mm },
           step_x = 0.3*GRATE, step_y = 0.2*GRATE, count_x = 2, count_y = 3 } }, thickness = 12*mm,
           place = { at = { O, yc, floor_z }, x = "right", y = "back" } }
    item { number = "B-74", name = "bent glass pane", group = "door", role = "glazing", kind = "glass",
            material = "glass-ceramic", price = 120,
           mass = (glass_arc + 20*mm)*(glass_h + 20*mm)*(4*mm)*(2600*kg/(1*m3)), -- bent, so it has no flat shape here
           place = { at = { O, yc - door_in + 4*mm, (open_z0 + open_z1)/2 }, x = "right", y = "up" } }
    local stone = min(55*mm, top_z - roof_top - tray_leg - 15*mm)
    local stone_w = oct - FLUE/2 - 14*mm
    item { number = "B-75", name = "store stone", group = "top", role = "heat store", kind = "bought",
            material = "soapstone", price = 11,
           mass = stone_w*(80*mm)*stone*(2980*kg/(1*m3)), -- density from memory
           places = { { at = { O, yc - oct + stone_w/2, roof_top + tray_leg + stone/2 }, x = "right", y = "back" },
                      { at = { O, yc + oct - stone_w/2, roof_top + tray_leg + stone/2 }, x = "right", y = "back" },
                      { at = { -oct + stone_w/2, yc, roof_top + tray_leg + stone/2 }, x = "right", y = "back" },
                      { at = { oct - stone_w/2, yc, roof_top + tray_leg + stone/2 }, x = "right", y = "back" } } }
    item { number = "B-80", name = "fire door rope", group = "door", role = "rope", kind = "rope",
            material = "glass rope", price = 6,
           length = 2*(2*arc(frame_out, theta_open) + 28*mm) + 2*(open_z1 - open_z0 + 28*mm),
           d = ROPE, groove = { depth = O, width = 28*mm }, joint = door_in - frame_out, -- on the frame, ribs within
           mass_per_m = 0.08*kg/m*(ROPE/(10*mm))*(ROPE/(10*mm)),
           place = { at = { O, yc - frame_out, (open_z0 + open_z1)/2 }, x = "right", y = "up" } }
    item { number = "B-81", name = "ash door rope", group = "ash door", role = "rope", kind = "rope",
            material = "glass rope", price = 4,
           length = 2*(2*arc(frame_out, theta_open) + 20*mm) + 2*(ash_z1 - ash_z0 + 20*mm),
           d = ROPE, groove = { depth = O, width = 20*mm }, joint = door_in - frame_out,
           mass_per_m = 0.08*kg/m*(ROPE/(10*mm))*(ROPE/(10*mm)),
           place = { at = { O, yc - frame_out, (ash_z0 + ash_z1)/2 }, x = "right", y = "up" } }
    item { number = "B-82", name = "glass rope, flat", group = "door", role = "rope", kind = "rope",
            material = "glass rope", price = 3,
           length = 2*(glass_arc + glass_h) + 40*mm, mass_per_m = 0.02*kg/m,
           place = { at = { O, yc - door_in, (open_z0 + open_z1)/2 }, x = "right", y = "up" } }
    local pins = {}
    for i, z in ipairs(hinge_z) do
        local p = polar(pin_r, theta_pin)
        pins[i] = { at = { p[1], yc + p[2], z + 6.5*mm }, x = "right", y = "back" }
    end
    item { number = "B-83", name = "hinge pin", group = "door", role = "hinge", kind = "bought", material = "steel",
            mass = 0.008*kg, price = 1, places = pins }
    local grips = {}
    for i, z in ipairs(latch_z) do
        local p = polar(pin_r, turn_of(40*mm, pin_r) - theta_pin)
        grips[i] = { at = { p[1], yc + p[2], z }, x = "right", y = "back" }
    end
    item { number = "B-84", name = "handle with cam", group = "door", role = "handle", kind = "bought",
            material = "steel", mass = 0.22*kg, price = 12,
           places = grips }
    item { number = "B-85", name = "slide knob", group = "air", role = "handle", kind = "bought", material = "steel",
            mass = 0.03*kg, price = 2,
           place = { at = { O, 18*mm, base_z - 10*mm }, x = "right", y = "back" } }
    item { number = "B-86", name = "screws and nuts, set", group = "base", role = "fastener", kind = "bought",
            material = "steel", mass = 0.45*kg, price = 5,
           place = { at = { O, yc, base_top }, x = "right", y = "back" } }
    local soles = {}
    for i = 0, 3 do
        local p = levelling(i)
        soles[i + 1] = { at = { p[1], yc + p[2], O }, x = "right", y = "back" }
    end
    item { number = "B-87", name = "levelling screw", group = "base", role = "foot", kind = "bought",
            material = "steel",
           mass = 0.05*kg, price = 1.5, shape = disc { d = 30*mm }, thickness = 6*mm, places = soles }
end

-- ---- air openings -------------------------------------------------------------------------------------------

opening { name = "grate", kind = "primary", area = 6*0.24*GRATE*(9*mm), height = floor_z }
opening { name = "airwash slot", kind = "wash", area = 2*arc(tip_r, tip_theta)*wash_slot, height = roof_z - wash_h }
opening { name = "rear jets", kind = "rear jet", area = 5*pi/4*(6*mm)*(6*mm), height = wall_z + 160*mm,
          hole = 6*mm }
