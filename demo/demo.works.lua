-- The invented works that the demonstration stoves are cut, bent and rolled in.
-- Invented for demonstration. Sizes, speeds and rates are of the order a small works meets: where no
-- source is named, a figure is common practice or plain invention.

works { name = "Demonstration works", note = "Invented for demonstration.", currency = "EUR",
        scrap_price = 0.22/kg, remnant_factor = 0.6, remnant_least = { 500*mm, 300*mm } }

-- Stock: hot-rolled S235 in the two usual formats (EN 10051 sheet); x runs along the rolling direction.
for _, sheet_mm in ipairs { 2*mm, 3*mm, 4*mm, 6*mm } do
    local label = string.format("S235 %d", sheet_mm / (1*mm))
    sheet { "S235", sheet_mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg, name = label .. " large" }
    sheet { "S235", sheet_mm, size = { 2000*mm, 1000*mm }, price = 1.12/kg, count = 12, name = label .. " small" }
end

-- Stainless sheet for oven liners and the like.
sheet { "1.4301", 1.5*mm, size = { 2500*mm, 1250*mm }, price = 3.9/kg, name = "1.4301 1.5" }

-- What was left of an earlier 4 mm sheet: a corner is gone and a round blank was cut from it.
remnant { "S235", 4*mm, name = "R-0317", price = 8,
          outline = polygon { { 0*mm, 0*mm }, { 940*mm, 0*mm }, { 940*mm, 380*mm }, { 610*mm, 380*mm },
                              { 610*mm, 720*mm }, { 0*mm, 720*mm } },
          holes = { hole { at = { 250*mm, 480*mm }, d = 260*mm } } }

-- Laser of 3 kW. Feeds: inside the range for 3 kW (handbook 4.3, a maker's speed chart); nitrogen up to 2 mm, oxygen
-- above. Pierce times, kerf 0.15 to 0.30 mm, lead about sheet + 1 mm, web max(s, 5 mm) with nitrogen and max(1.5 s, 8 mm)
-- with oxygen, edge margin 8 to 10 mm: common practice, no source. The stainless row is common practice throughout.
-- Gas: nitrogen 12 bar through 2.0 mm, oxygen 0.5 bar through 1.5 mm (nozzle formula, handbook 4.4); prices invented.
local n2_flow, n2_price, o2_flow, o2_price = 27.3*m3/h, 0.35/m3, 1.6*m3/h, 1.2/m3
local function with_n2(row) row.gas, row.flow, row.gas_price = "N2", n2_flow, n2_price return row end
local function with_o2(row) row.gas, row.flow, row.gas_price = "O2", o2_flow, o2_price return row end
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rate = 95/h,
        micro_joint = 0.4*mm, micro_below = 60*mm,
        rows = {
            with_n2 { "1.4301", 1.5*mm, feed = 7.0*m/min, pierce = 0.2*s, kerf = 0.15*mm, lead = 3*mm, web = 5*mm,
                      margin = 8*mm },
            with_n2 { "S235", 2*mm, feed = 6.0*m/min, pierce = 0.2*s, kerf = 0.15*mm, lead = 3*mm, web = 5*mm,
                      margin = 8*mm },
            with_o2 { "S235", 3*mm, feed = 4.0*m/min, pierce = 0.4*s, kerf = 0.20*mm, lead = 4*mm, web = 8*mm,
                      margin = 8*mm },
            with_o2 { "S235", 4*mm, feed = 3.5*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 5*mm, web = 8*mm,
                      margin = 10*mm },
            with_o2 { "S235", 6*mm, feed = 2.7*m/min, pierce = 1.0*s, kerf = 0.30*mm, lead = 5*mm, web = 9*mm,
                      margin = 10*mm },
        },
        program = { start = { "G21", "G90" }, stop = { "M2" }, beam_on = "M3", beam_off = "M5",
                    etch_on = "M13", etch_off = "M15" },
        capability = { edge = 0.05*mm } }  -- standard deviation; common practice, no source, as all of them below

-- Rates of machines with their people are of the order of the cost example in handbook 12.4; the rest is invented.

-- Press brake. The natural inside radius of an air bend is about 0.16 V (handbook 2.2): the 20 die makes 3, the 32 die
-- 5, the 40 die 6, the 63 die 10 mm. Length, force, tools, times and the trials are invented; bends.csv holds strips as
-- measured.
press { rule = "DIN 6935", dies = { 12*mm, 16*mm, 20*mm, 25*mm, 32*mm, 40*mm, 50*mm, 63*mm },
        length = 2500*mm, force = 1000*kN, joggle_least = 9*mm,
        trials = { { "S235", 4*mm, radius = 6*mm, k = 0.37,
                     note = "invented: three strips of 4 mm on the 40 die" } },
        strips = "bends.csv",
        punch = { radius = 1*mm, body = 12*mm, height = 320*mm, neck = 45*mm },  -- neck: relief of the goose-neck punch
        die_block = { beside = 5*mm, height = 100*mm }, beam = 80*mm,
        gauge = { least = 8*mm, most = 750*mm },
        bend_time = 14*s, turn_time = 8*s, gauge_time = 10*s, setup = 12*min, rate = 52/h,
        capability = { angle = 0.3*deg, line = 0.15*mm } }

-- Three-roll bender for shells, collars and spigots. Ends are bent before, on the press, so that the last two thicknesses stay
-- flat (handbook 3.1); the rolls alone would leave about 40 mm.
rolls { length = 1250*mm, top_radius = 45*mm, lower_radius = 45*mm, centres = 130*mm, flat_end = 2.0,
        force = 90*kN, speed = 4*m/min, setup = 15*min, rate = 48/h,
        trials = "rolls.csv", capability = { radius = 1*percent } }

-- Welding. Throats 2, 2.5 and 3 mm: MAG fillets with 80/20 gas on sheet of 1.6, 2.4 and 3.2 mm (handbook 7.2, settings
-- from a maker's manual: current, voltage, travel and gas inside its ranges). The wire feeds deposit the throat at the
-- robot's travel (weld area with a tenth of convexity, 95 % of the wire, handbook 7.2). The rows of 1.0 and 1.5 mm, arc-on share
-- by hand 20 to 35 % (a robot comes to 50 to 80 %), tacks and the robot's times: common practice, no source. Torches: an
-- air-cooled one for the hand with its glove and forearm (wrist and arm), one of 22 degrees on a robot's wrist and
-- forearm; their sizes are common practice, no source.
welding { process = "135", wire_price = 2.4/kg, gas_price = 6.5/m3, power_price = 0.28/kW/h,
          rows = {
              { 1.0*mm, from = 1.0*mm, to = 2.0*mm, wire = 0.8*mm, feed = 2.1*m/min, voltage = 16.0*V, current = 60*A,
                flow = 12*l/min, hand = 75*cm/min, robot = 90*cm/min },
              { 1.5*mm, from = 1.0*mm, to = 4.5*mm, wire = 0.8*mm, feed = 3.1*m/min, voltage = 17.5*V, current = 90*A,
                flow = 12*l/min, hand = 50*cm/min, robot = 60*cm/min },
              { 2.0*mm, from = 1.5*mm, to = 6.0*mm, wire = 0.8*mm, feed = 5.5*m/min, voltage = 18.8*V, current = 105*A,
                flow = 12*l/min, hand = 50*cm/min, robot = 60*cm/min },
              { 2.5*mm, from = 2.0*mm, to = 6.0*mm, wire = 1.0*mm, feed = 5.5*m/min, voltage = 19.8*V, current = 120*A,
                flow = 12*l/min, hand = 50*cm/min, robot = 60*cm/min },
              { 3.0*mm, from = 2.5*mm, to = 8.0*mm, wire = 1.0*mm, feed = 8.0*m/min, voltage = 20.2*V, current = 135*A,
                flow = 14*l/min, hand = 50*cm/min, robot = 60*cm/min },
          },
          tack = { time = 6*s, length = 12*mm },
          hand = { arc_on = 28*percent, rate = 50/h,
                   torch = { radius = 10*mm, length = 60*mm, neck = { bend = 45*deg, radius = 9*mm, length = 70*mm },
                             body = { radius = 18*mm, length = 50*mm }, wrist = { radius = 50*mm, length = 110*mm },
                             arm = { bend = 70*deg, radius = 50*mm, length = 300*mm } } },
          robot = { air_speed = 400*mm/s, start_time = 1.5*s, turn_time = 4*s, fixture_time = 4*min, load = 250*kg,
                    reach = 1400*mm, bridges = 0.5, rate = 58/h,
                    torch = { radius = 12*mm, length = 90*mm, neck = { bend = 22*deg, radius = 12*mm, length = 120*mm },
                              body = { radius = 30*mm, length = 110*mm }, wrist = { radius = 55*mm, length = 120*mm },
                              arm = { bend = 90*deg, radius = 80*mm, length = 500*mm } } },
          capability = { placing = 0.3*mm } }

-- Blasting by hand in a cabinet: 15 m2/h is the middle nozzle (handbook 10.1). Some 24 kg of grit go through the nozzle
-- for a square metre and come back; `media` is what is worn out and lost of it. Below 2 mm sheet bows (common
-- practice).
blasting { grade = "Sa 2 1/2", media = 0.6*kg/m2, media_price = 1.2/kg, speed = 15*m2/h, least = 2*mm, setup = 5*min,
           rate = 46/h }

-- Stove black: silicone of the 600 degC class, solids by volume, film of one coat, HVLP gun, oven curing
-- (handbook 10.2: common practice, no source).
coating { name = "silicone, black", class = 600*degC, solids = 30*percent, film = 25*um, coats = 2,
          transfer = 55*percent, price = 28/l, solvent = 480*g/l, speed = 20*m2/h, setup = 10*min, rate = 44/h,
          dry_time = 30*min, cure = 230*degC, cure_time = 45*min, oven = 4 }

-- Lifting.
hoist { name = "vacuum beam at the laser", load = 500*kg, rigging = 60*kg, legs = 1, leg_angle = 0*deg,
        station = "laser" }
hoist { name = "chain hoist at the robot", load = 250*kg, rigging = 12*kg, legs = 2, leg_angle = 30*deg,
        station = "welding robot" }
hoist { name = "jib crane at assembly", load = 250*kg, rigging = 12*kg, legs = 2, leg_angle = 30*deg,
        station = "assembly" }
trolley { length = 900*mm, width = 650*mm, height = 300*mm, stop = 2.0*m/s/s }

-- Stations in the order of the route (handbook 12.1). `each` and `by_mass`: taking one piece or body in and out.
-- A station whose machine has a table of its own takes its rate from there.
station { name = "laser", operation = "cut", machines = 1, people = 1, each = 6*s, by_mass = 1*s/kg, up = 85*percent }
station { name = "deburring", operation = "deburr", machines = 1, people = 1, rate = 44/h, each = 8*s,
          by_mass = 1*s/kg, deburring = 60*mm/s, up = 95*percent }
station { name = "press brake", operation = "bend", machines = 1, people = 1, each = 10*s, by_mass = 1*s/kg,
          up = 90*percent }
station { name = "rolls", operation = "roll", machines = 1, people = 1, each = 15*s, by_mass = 1*s/kg,
          up = 95*percent }
station { name = "tacking bench", operation = "tack", machines = 2, people = 1, rate = 50/h, each = 20*s,
          by_mass = 1.5*s/kg, up = 95*percent, buffer = 6 }
station { name = "welding robot", operation = "weld", machines = 1, people = 1, each = 60*s, by_mass = 1*s/kg,
          up = 85*percent, buffer = 4 }
station { name = "hand welding", operation = "weld by hand", machines = 1, people = 1, each = 40*s, by_mass = 1.5*s/kg,
          up = 90*percent, buffer = 4 }
station { name = "leak test", operation = "leak test", machines = 1, people = 1, rate = 44/h, each = 8*min,
          up = 95*percent, buffer = 2 }
station { name = "blast cabinet", operation = "blast", machines = 1, people = 1, each = 60*s, by_mass = 1*s/kg,
          up = 90*percent, buffer = 4 }
station { name = "spray booth", operation = "coat", machines = 1, people = 1, each = 60*s, by_mass = 1*s/kg,
          up = 90*percent, buffer = 4 }
station { name = "oven", operation = "cure", machines = 1, people = 0, rate = 12/h, each = 2*min, up = 95*percent,
          buffer = 4 }
station { name = "lining bench", operation = "line", machines = 1, people = 1, rate = 42/h, each = 90*s,
          up = 95*percent, buffer = 4 }
station { name = "assembly", operation = "assemble", machines = 2, people = 1, rate = 42/h, each = 2*min,
          by_mass = 1*s/kg, up = 95*percent, buffer = 4 }
station { name = "final test", operation = "test", machines = 1, people = 1, rate = 44/h, each = 10*min,
          up = 95*percent, buffer = 2 }
station { name = "packing", operation = "pack", machines = 1, people = 1, rate = 40/h, each = 12*min, up = 95*percent }

labour { shift = 7.67*h, shifts = 1, days = 5, rate = 42/h, overhead = 18*percent, stoves_week = 15,
         lifted_by = "working adults" }
