-- expect: is 25000 um, allowed is 1 um to 2000 um
works { name = "w" }
sheet { "S235", 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg }
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { "S235", 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } } }
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN }
coating { name = "silicone, black", class = 600*degC, solids = 30*percent, film = 25*mm, coats = 2, transfer = 55*percent, price = 28/l, solvent = 480*g/l, speed = 20*m2/h, setup = 10*min, rate = 44/h, dry_time = 30*min, cure = 230*degC, cure_time = 45*min, oven = 4 } -- here
