-- expect: needs laser
works { name = "w" }
sheet { "S235", 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg }
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN }
