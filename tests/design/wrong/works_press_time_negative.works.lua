-- expect: is -14 s, allowed is 0 s
works { name = "w" }
sheet { "S235", 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg }
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { "S235", 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } } }
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN, punch = { radius = 1*mm, body = 12*mm, height = 160*mm, neck = 45*mm }, die_block = { beside = 14*mm, height = 100*mm }, beam = 80*mm, gauge = { least = 8*mm, most = 750*mm }, bend_time = -14*s, turn_time = 8*s, gauge_time = 10*s, setup = 12*min, rate = 52/h, capability = { angle = 0.3*deg, line = 0.15*mm } } -- here
