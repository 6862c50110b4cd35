-- expect: beside this one, without folders
works { name = "w" }
sheet { "S235", 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg }
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { "S235", 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } } }
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN, strips = "../../../demo/bends.csv" } -- here
