-- expect: is empty; give one row
works { name = "w" }
sheet { "S235", 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg }
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = {  } } -- here
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN }
