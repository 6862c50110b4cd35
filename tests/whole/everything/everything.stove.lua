-- Everything the description language offers, in one small stove that holds. Invented for testing; not a stove anyone
-- should build. Every kind of element of docs/description.md stands here at least once.

stove { name = "everything", title = "Everything at once", note = "Invented for testing; not a tested appliance.",
        duty = { output = 500*W, refuel = 0.75*h, efficiency = 40*percent, fuel = "beech logs" } }

local high = parameter("height", 20*cm, { min = 180*mm, max = 0.26*m }, "height of the walls")
local half = parameter("half_width", 170*mm, { min = 165*mm, max = 180*mm }, "inside of the side walls from the middle")
local fold = parameter("fold", 45*deg, { min = 40*deg, max = pi/3*rad }, "angle of the joggle")
local jets = parameter("jets", 5, { min = 3, max = 7 }, "air jets in the back wall")
local warm = parameter("room", 20*degC, { min = 5*degC, max = 35*degC }, "temperature of the room")
assert(warm - 0*degC < 40*K, "the room is warm enough")

group("body", { title = "Body", explode = { 0*mm, 0*mm, 0*mm } })
group("top", { title = "Lid and collar", explode = { 0*mm, 0*mm, 200*mm } })
group("loose", { title = "Loose pieces", explode = { 250*mm, 0*mm, 0*mm } })

local t, r, fit, hook = 3*mm, 5*mm, 0.5*mm, 28*mm
local front_y, back_y = 20*mm, 250*mm
local end_y = back_y + hook + r + t
local wide = 2*(half - fit)           -- back wall
local tab, from_edge = 40*mm, 60*mm   -- tabs of the back wall

-- Base: rounded rectangle; hole, row, grid, slot, windows of polygon, disc and DXF outlines; marks.
local function tab_slot(x) return window { outline = rectangle { tab + 0.4*mm, t + 0.4*mm },
                                           at = { x - 0.2*mm, back_y - 0.2*mm } } end
piece { number = "E-01", name = "base", group = "body", role = "base", material = "S235", thickness = t, turns = "free",
    face = { outline = rectangle { 400*mm, 300*mm, corner = 10*mm, at = { -200*mm, 0*mm } },
             number_at = { -60*mm, 100*mm },
             holes = { hole { at = { -188*mm, 12*mm }, d = 8*mm },
                       row { hole { at = { -120*mm, 30*mm }, d = 6*mm }, step = { 20*mm, 5*mm }, count = 4 },
                       grid { slot { at = { 60*mm, 40*mm }, length = 24*mm, width = 8*mm, turn = 45*deg },
                              step_x = 30*mm, step_y = 30*mm, count_x = 3, count_y = 2 },
                       window { outline = polygon { { 0*mm, 0*mm }, { 60*mm, 0*mm, round = 6*mm },
                                                    { 60*mm, 30*mm, sweep = 90*deg }, { 0*mm, 30*mm } },
                                at = { -130*mm, 120*mm }, turn = -30*deg },
                       window { disc { d = 40*mm, at = { 5*mm, 0*mm } }, at = { 95*mm, 140*mm }, edge = "eye" },
                       window { outline = from_dxf("bracket.dxf", { layer = "CUT", turn = 90*deg }),
                                at = { 40*mm, 110*mm } },
                       tab_slot(half - fit - from_edge - tab), tab_slot(-half + fit + from_edge) },
             marks = { etch { "FRONT", at = { -20*mm, 8*mm }, height = 6*mm },
                       etch { "left", at = { -185*mm, 180*mm }, height = 5*mm, turn = -90*deg },
                       line { { -10*mm, 60*mm }, { 10*mm, 60*mm } } } },
    place = { at = { 0*mm, 0*mm, 0*mm }, x = "right", y = "back", surface = "rear" } }

-- Back wall: tabs at its foot (one edge of nine segments), flanges that stand in the hooks of the side walls.
piece { number = "E-02", name = "back wall", group = "body", role = "firebox wall", material = "S235", thickness = t,
        turns = "half",
    face = { outline = polygon { { 0*mm, 0*mm, edge = "foot" }, { from_edge, 0*mm, edge = "foot" },
                                 { from_edge, -t, edge = "foot" }, { from_edge + tab, -t, edge = "foot" },
                                 { from_edge + tab, 0*mm, edge = "foot" },
                                 { wide - from_edge - tab, 0*mm, edge = "foot" },
                                 { wide - from_edge - tab, -t, edge = "foot" }, { wide - from_edge, -t, edge = "foot" },
                                 { wide - from_edge, 0*mm, edge = "foot" }, { wide, 0*mm, edge = "right" },
                                 { wide, high, edge = "top" }, { 0*mm, high, edge = "left" } },
             holes = { row { hole { at = { 80*mm, 120*mm }, d = 6*mm, edge = "jet" }, step = { 30*mm, 0*mm },
                             count = jets } },
             bends = { { on = "left", name = "left flange", height = hook, radius = r },
                       { on = "right", name = "right flange", height = hook, radius = r, relief = "none" } } },
    place = { at = { half - fit, back_y, t }, x = "left", y = "up", surface = "rear" } }

-- Side wall: behind bent twice to a hook; in front a leaning flange on part of the edge with square reliefs; above a
-- flange on part of the edge with round reliefs of its own size, whose child face is drawn.
piece { number = "E-03", name = "left side", group = "body", role = "firebox wall", material = "S235", thickness = t,
    face = { name = "sheet", outline = rectangle { end_y - front_y, high },
             bends = { { on = "right", name = "rear flange", height = 25*mm + 2*fit + 2*t, radius = r,
                         face = { bends = { { on = "tip", name = "hook", height = hook + r - fit, radius = r } } } },
                       { on = "left", from = 40*mm, to = 140*mm, name = "front flange", height = 32*mm, radius = r,
                         relief = "square", slope_start = 10*deg, slope_end = 15*deg, corner = 6*mm,
                         face = { holes = { hole { at = { 50*mm, 15*mm }, d = 6*mm, edge = "bolt" } },
                                  marks = { etch { "up", at = { 30*mm, 10*mm }, height = 3*mm } } } },
                       { on = "top", from = 60*mm, to = 180*mm, name = "top flange", radius = r, relief = "round",
                         relief_width = 6*mm, relief_depth = 12*mm, angle = 80*deg,
                         face = { name = "shelf", outline = polygon { { 0*mm, 0*mm }, { 120*mm, 0*mm },
                                  { 120*mm, 20*mm, sweep = 30*deg, edge = "brow" }, { 0*mm, 20*mm } } } } } },
    place = { at = { -half - t, front_y, t }, x = "back", y = "up", surface = "rear" } }
mirror("left side", { number = "E-04", name = "right side", group = "body", role = "firebox wall", plane = "x",
                      at = 0*mm })

piece { number = "E-05", name = "front", group = "body", role = "front", material = "S235", thickness = t,
    face = { outline = rectangle { 2*(half + t), high },
             holes = { window { outline = rectangle { 200*mm, high - 80*mm, corner = 10*mm },
                                at = { half + t - 100*mm, 40*mm } } } },
    place = { at = { -half - t, front_y, t }, x = "right", y = "up", surface = "rear" } }

-- Lid: a disc with a named hole; the collar is a strip rolled to a ring with cut-outs in its zone.
local lid_z, ring_flat, ring_r = 0.3*m, 8*mm, 60*mm
piece { number = "E-06", name = "lid", group = "top", role = "shell", material = "S235", thickness = t, flip = true,
    face = { outline = disc { d = 300*mm },
             holes = { hole { at = { 0*mm, 0*mm }, d = 2*(ring_r + 2.6*mm), edge = "flue hole" } } },
    place = { at = { 0*mm, 140*mm, lid_z }, x = "right", y = "back", surface = "front" } }
piece { number = "E-07", name = "collar", group = "top", role = "flue collar", material = "S235", thickness = 2*mm,
        turns = "fixed",
    face = { outline = rectangle { ring_flat, 80*mm }, number_at = false,
             bends = { { on = "right", name = "ring", kind = "roll", radius = ring_r, height = ring_flat,
                         angle = 2*pi*rad - 2*atan(ring_flat + 0.25*mm, ring_r + 1*mm),
                         holes = { { hole { at = { 0*mm, 0*mm }, d = 20*mm, edge = "port" }, along = 25*mm,
                                     angle = 90*deg },
                                   { slot { at = { 0*mm, 0*mm }, length = 30*mm, width = 6*mm, turn = 90*deg },
                                     along = 25*mm, angle = 200*deg } } } } },
    place = { at = { -ring_flat, 140*mm + ring_r + 1*mm, lid_z - 30*mm }, x = "right", y = "up" } }

-- Cover: joggled on one side, closed hem on the other; its lap lies on a ledge with an open hem.
local rise, lap = 10*mm, 20*mm
local run_y = 2*4*mm*sin(fold) + (rise - 2*4*mm*(1 - cos(fold)))/sin(fold)*cos(fold)
piece { number = "E-08", name = "cover", group = "loose", role = "shell", material = "S235", thickness = 2*mm,
    face = { outline = rectangle { 100*mm, 80*mm },
             bends = { joggle { on = "right", name = "lap", offset = rise, angle = fold, radius = 3*mm, length = lap },
                       hem { on = "left", height = 14*mm, side = "rear", gap_start = 1*mm, gap_end = 1*mm } } },
    place = { at = { 300*mm, 60*mm, 50*mm }, x = "right", y = "back" } }
piece { number = "E-09", name = "ledge", group = "loose", role = "support", material = "S235", thickness = 2*mm,
    face = { outline = rectangle { 80*mm, 80*mm },
             bends = { hem { on = "right", height = 16*mm, gap = 6*mm, side = "front" } } },
    place = { relative_to = "cover", at = { 100*mm + run_y + 2*mm, 0*mm, rise - 1*mm }, x = "right", y = "back",
              surface = "front" } }

-- Bracket: outline from a drawing, bent from its declared edge with a factor of its own; two of them, one turned.
piece { number = "E-10", name = "bracket", group = "loose", role = "support", material = "S235", thickness = t,
    face = { outline = from_dxf("bracket.dxf", { layer = "CUT", at = { 0*mm, 0*mm } }),
             bends = { { on = "edge 1", name = "leg", kind = "press", dims = "tangent", height = 25*mm, radius = r,
                         angle = -90*deg, k = 0.4 } } },
    places = { { at = { 300*mm, 200*mm, 120*mm }, x = "right", y = "back", surface = "mid" },
               { at = { 300*mm, 200*mm, 120*mm }, x = "right", y = "back",
                 turn = { axis = "up", angle = 180*deg, about = { 345*mm, 250.2*mm, 0*mm } } } } }

-- Tray: bent on all sides, corners open by the gaps; a closed hem on one rim.
local function rim(edge, more)
    local b = { on = edge, name = edge .. " rim", height = 25*mm, radius = 3*mm, gap_start = 1*mm, gap_end = 1*mm }
    for field, value in pairs(more or {}) do b[field] = value end
    return b
end
piece { number = "E-11", name = "tray", group = "loose", role = "ash pan", material = "S235", thickness = 2*mm,
    face = { outline = polygon { { x = 0*mm, y = 0*mm, edge = "front" }, { x = 120*mm, y = 0*mm, edge = "right" },
                                 { x = 120*mm, y = 90*mm, edge = "back" }, { x = 0*mm, y = 90*mm, edge = "left" } },
             bends = { rim("front", { face = { bends = { { on = "tip", name = "fold", kind = "hem", angle = 180*deg,
                                                           height = 10*mm, radius = 1*mm } } } }),
                       rim("right"), rim("back"), rim("left") } },
    place = { at = { 300*mm, 60*mm, 10*mm }, x = "right", y = "back", surface = "rear" } }

-- Items of each kind.
item { number = "E-20", name = "grate", group = "body", role = "grate", kind = "cast", material = "EN-GJL-200",
       shape = rectangle { 100*mm, 80*mm, corner = 5*mm }, thickness = 12*mm, price = 14,
       holes = { grid { slot { at = { 25*mm, 20*mm }, length = 30*mm, width = 8*mm }, step_x = 45*mm, step_y = 20*mm,
                        count_x = 2, count_y = 3 } },
       place = { at = { -50*mm, 80*mm, 40*mm }, x = "right", y = "back" } }
item { number = "E-21", name = "screw", group = "loose", role = "fastener", kind = "bought", mass = 12*g, price = 0.2,
       places = { { at = { 340*mm, 220*mm, 110*mm }, x = "right", y = "back" },
                  { at = { 360*mm, 220*mm, 110*mm }, x = "right", y = "back" } } }
item { number = "E-22", name = "left board", group = "body", role = "lining", kind = "board",
       material = "vermiculite board", shape = rectangle { 100*mm, 100*mm }, thickness = 20*mm,
       place = { at = { -half + 1*mm, 70*mm, 30*mm }, x = "back", y = "up" } }
item { number = "E-23", name = "pane", group = "body", role = "glazing", kind = "glass", material = "glass-ceramic",
       shape = polygon { { 0*mm, 0*mm }, { 220*mm, 0*mm }, { 220*mm, 140*mm, round = 5*mm }, { 0*mm, 140*mm } },
       thickness = 4*mm, place = { at = { -110*mm, front_y - t - 2*mm, 33*mm }, x = "right", y = "up" } }
item { number = "E-24", name = "door rope", group = "body", role = "rope", kind = "rope", length = 0.72*m,
       d = 10*mm, groove = { depth = 6*mm, width = 14*mm }, joint = 1.5*mm,
       mass_per_m = 0.06*kg/m, place = { at = { 0*mm, front_y, 100*mm }, x = "right", y = "up" } }

-- Joints of all kinds with all seams.
joint { name = "back wall in base", kind = "slot and tab", seam = "plug", gap = 0.5*mm, a = { "back wall", edge = "foot" },
        b = { "base", face = "main" } }
joint { name = "collar seam", kind = "butt", seam = "square butt", throat = 2*mm, gap = 0.8*mm, tight = true,
        a = { "collar", edge = "left" }, b = { "collar", edge = "ring.tip" } }
joint { name = "collar in lid", kind = "tee", seam = "fillet", throat = 2*mm, gap = 1.2*mm, tight = true,
        a = { "lid", edge = "flue hole" }, b = { "collar" } }
joint { name = "cover on ledge", kind = "lap", seam = "none", gap = 0.5*mm, a = { "cover", edge = "lap.tip" },
        b = { "ledge" } }
for _, side in ipairs { "left side", "right side" } do
    joint { name = side .. " hook", kind = "interlock", seam = "fillet", throat = 2*mm, gap = fit + 0.2*mm, tight = true,
            a = { side, edge = "hook.tip" }, b = { "back wall", face = "main" } }
    joint { name = side .. " to front, above", kind = "corner", seam = "outside corner", throat = 2*mm, gap = 0.5*mm,
            a = { side, edge = "left" }, b = { "front" } }
    joint { name = side .. " to front, below", kind = "corner", seam = "outside corner", throat = 2*mm, gap = 0.5*mm,
            stitch = 20*mm, pitch = 40*mm, a = { side, edge = "left 2" }, b = { "front", face = "main" } }
end

joint { name = "bracket to bracket", kind = "butt", seam = "square butt", throat = 2*mm, gap = 0.5*mm,
        a = { "bracket", edge = "edge 4" }, b = { "bracket", edge = "edge 4", place = 2 } }

opening { name = "primary air", kind = "primary", area = 20*mm2, height = 20*mm }
opening { name = "secondary air", kind = "secondary", area = 7*mm2, height = 100*mm }
opening { name = "airwash", kind = "wash", area = 0.00002*m2, height = 180*mm }
opening { name = "jets", kind = "rear jet", area = jets*pi/4*(6*mm)*(6*mm), height = 123*mm }
