-- expect: did you mean 'assembly'?
works { name = "w" }
sheet { "S235", 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg }
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { "S235", 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } } }
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN }
trolley { length = 900*mm, width = 650*mm, height = 300*mm, stop = 2.0*m/s/s }
station { name = "assembly", operation = "assemble", machines = 0, people = 1, rate = 42/h, each = 2*min, by_mass = 1*s/kg, up = 95*percent, buffer = 4 }
hoist { name = "jib crane", load = 250*kg, rigging = 12*kg, legs = 2, leg_angle = 30*deg, station = "asembly" } -- here
