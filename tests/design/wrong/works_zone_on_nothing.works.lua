-- expect: lies where the sheet has no material
works { name = "w" }
remnant { "S235", 4*mm, outline = polygon { {100*mm, 50*mm}, {500*mm, 50*mm}, {100*mm, 350*mm} }, zones = { { x = 420*mm, y = 250*mm, width = 60*mm, height = 60*mm, reason = "rust" } } } -- here
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { "S235", 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } } }
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN }
