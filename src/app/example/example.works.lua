-- The works the example is made in. Invented for demonstration: put your own figures here. Where no source is named, a
-- figure is common practice or plain invention. docs/description.md tells what else there is (trials, torches, hoists).

works { name = "example works", note = "Invented for demonstration.", currency = "EUR",
        scrap_price = 0.22/kg, remnant_factor = 0.6, remnant_least = { 500*mm, 300*mm } }

for _, thickness in ipairs { 2*mm, 3*mm, 4*mm } do
    sheet { "S235", thickness, size = { 2000*mm, 1000*mm }, price = 1.10/kg }
end

-- Feeds, pierce times, kerf, web and margin: middle of the ranges for a 3 kW fibre source.
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rate = 95/h, micro_joint = 0.4*mm, micro_below = 60*mm,
        rows = {
            { "S235", 2*mm, feed = 6.0*m/min, pierce = 0.2*s, kerf = 0.15*mm, lead = 3*mm, gas = "N2", flow = 27*m3/h,
              gas_price = 0.35/m3, web = 6*mm, margin = 10*mm },
            { "S235", 3*mm, feed = 4.0*m/min, pierce = 0.4*s, kerf = 0.20*mm, lead = 4*mm, gas = "O2", flow = 1.6*m3/h,
              gas_price = 1.2/m3, web = 8*mm, margin = 10*mm },
            { "S235", 4*mm, feed = 3.5*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 5*mm, gas = "O2", flow = 1.6*m3/h,
              gas_price = 1.2/m3, web = 8*mm, margin = 10*mm },
        },
        program = { start = { "G21", "G90" }, stop = { "M2" }, beam_on = "M3", beam_off = "M5", etch_on = "M13",
                    etch_off = "M15" },
        capability = { edge = 0.05*mm } }

-- Press brake: an air bend takes an inside radius of about 0.16 of the die's opening.
press { rule = "DIN 6935", dies = { 16*mm, 20*mm, 25*mm, 32*mm, 40*mm }, length = 2500*mm, force = 1000*kN,
        punch = { radius = 1*mm, body = 12*mm, height = 320*mm, neck = 45*mm },
        die_block = { beside = 5*mm, height = 100*mm }, beam = 80*mm, gauge = { least = 8*mm, most = 750*mm },
        bend_time = 14*s, turn_time = 8*s, gauge_time = 10*s, setup = 12*min, rate = 52/h,
        capability = { angle = 0.3*deg, line = 0.15*mm } }
-- Ends of what is rolled are bent before, on the press: the last two thicknesses stay flat (common practice, no source). The three
-- rolls alone would leave about 40 mm.
rolls { length = 1250*mm, top_radius = 45*mm, lower_radius = 45*mm, centres = 130*mm, flat_end = 2.0, force = 90*kN,
        speed = 4*m/min, setup = 15*min, rate = 48/h, capability = { radius = 1*percent } }

-- Welding by hand, no robot.
welding { process = "135", wire_price = 2.4/kg, gas_price = 6.5/m3, power_price = 0.28/kW/h,
          rows = {
              { 1.4*mm, from = 1.0*mm, to = 4.5*mm, wire = 0.8*mm, feed = 2.7*m/min, voltage = 17.3*V, current = 85*A,
                flow = 12*l/min, hand = 50*cm/min },
              { 2.0*mm, from = 1.5*mm, to = 6.0*mm, wire = 0.8*mm, feed = 5.5*m/min, voltage = 18.8*V, current = 105*A,
                flow = 12*l/min, hand = 50*cm/min },
              { 2.5*mm, from = 2.0*mm, to = 6.0*mm, wire = 1.0*mm, feed = 5.5*m/min, voltage = 19.8*V, current = 120*A,
                flow = 12*l/min, hand = 50*cm/min },
          },
          tack = { time = 6*s, length = 12*mm }, hand = { arc_on = 28*percent, rate = 50/h,
                   torch = { radius = 10*mm, length = 60*mm, neck = { bend = 45*deg, radius = 9*mm, length = 70*mm },
                             body = { radius = 18*mm, length = 50*mm }, wrist = { radius = 50*mm, length = 110*mm },
                             arm = { bend = 70*deg, radius = 50*mm, length = 300*mm } } },
          capability = { placing = 0.3*mm } }

blasting { grade = "Sa 2 1/2", media = 0.6*kg/m2, media_price = 1.2/kg, speed = 15*m2/h, least = 2*mm, setup = 5*min,
           rate = 46/h }
coating { name = "silicone, black", class = 600*degC, solids = 30*percent, film = 25*um, coats = 2, transfer = 55*percent,
          price = 28/l, solvent = 480*g/l, speed = 20*m2/h, setup = 10*min, rate = 44/h, dry_time = 30*min,
          cure = 230*degC, cure_time = 45*min, oven = 4 }
hoist { name = "jib crane", load = 250*kg, rigging = 12*kg, legs = 2, leg_angle = 30*deg, station = "assembly" }
trolley { length = 900*mm, width = 650*mm, height = 300*mm, stop = 2.0*m/s/s }

-- Stations in the order of the route. `each` and `by_mass`: taking one piece or body in and out.
station { name = "laser", operation = "cut", each = 6*s, by_mass = 1*s/kg, up = 85*percent }
station { name = "deburring", operation = "deburr", rate = 44/h, each = 8*s, by_mass = 1*s/kg, deburring = 60*mm/s }
station { name = "press brake", operation = "bend", each = 10*s, by_mass = 1*s/kg, up = 90*percent }
station { name = "rolls", operation = "roll", each = 15*s, by_mass = 1*s/kg }
station { name = "tacking bench", operation = "tack", rate = 50/h, each = 20*s, by_mass = 1.5*s/kg }
station { name = "hand welding", operation = "weld by hand", machines = 2, each = 40*s, by_mass = 1.5*s/kg }
station { name = "leak test", operation = "leak test", rate = 44/h, each = 8*min }
station { name = "blast cabinet", operation = "blast", each = 60*s, by_mass = 1*s/kg }
station { name = "spray booth", operation = "coat", each = 60*s, by_mass = 1*s/kg }
station { name = "oven", operation = "cure", people = 0, rate = 12/h, each = 2*min }
station { name = "lining bench", operation = "line", rate = 42/h, each = 90*s }
station { name = "assembly", operation = "assemble", rate = 42/h, each = 2*min, by_mass = 1*s/kg }
station { name = "final test", operation = "test", rate = 44/h, each = 10*min }
station { name = "packing", operation = "pack", rate = 40/h, each = 12*min }

labour { shift = 7.67*h, shifts = 1, days = 5, rate = 42/h, overhead = 18*percent, stoves_week = 10,
         lifted_by = "working adults" }
