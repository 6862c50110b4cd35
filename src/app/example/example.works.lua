-- The works the example is made in. Invented for demonstration: put your own figures here.
works {
    name = "example works", note = "Invented for demonstration.", currency = "EUR",
    scrap_price = 0.22/kg, remnant_factor = 0.6, remnant_least = { 500*mm, 300*mm },
}

sheet { "S235", 2*mm, size = { 2000*mm, 1000*mm }, price = 1.10/kg }
sheet { "S235", 3*mm, size = { 2000*mm, 1000*mm }, price = 1.05/kg }

-- Feeds and pierce times: middle of the ranges for a 3 kW fibre source; common practice, no source.
laser {
    rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rate = 95/h, micro_joint = 0.4*mm, micro_below = 60*mm,
    rows = {
        { "S235", 2*mm, feed = 6.0*m/min, pierce = 0.2*s, kerf = 0.2*mm, lead = 3*mm, gas = "N2", flow = 14*m3/h, gas_price = 0.35/m3, web = 6*mm, margin = 10*mm },
        { "S235", 3*mm, feed = 4.1*m/min, pierce = 0.4*s, kerf = 0.25*mm, lead = 4*mm, gas = "O2", flow = 1.6*m3/h, gas_price = 1.2/m3, web = 8*mm, margin = 10*mm },
    },
    program = { start = { "G21", "G90" }, stop = { "M2" }, beam_on = "M3", beam_off = "M5", etch_on = "M13", etch_off = "M15" },
}

press { rule = "DIN 6935", dies = { 16*mm, 25*mm, 32*mm }, length = 3000*mm, force = 1000*kN }
rolls { length = 1500*mm, top_radius = 75*mm, lower_radius = 75*mm, centres = 220*mm, flat_end = 2.0 }
