-- expect: is missing, but the hand has one; give the robot's torch
works { name = "w" }
sheet { "S235", 4*mm, size = { 3000*mm, 1500*mm }, price = 1.05/kg }
laser { rapid = 60*m/min, acceleration = 10*m/s/s, etch = 10*m/min, rows = { { "S235", 4*mm, feed = 3.4*m/min, pierce = 0.5*s, kerf = 0.25*mm, lead = 4*mm, web = 8*mm, margin = 10*mm } } }
press { dies = { 16*mm, 24*mm }, length = 3000*mm, force = 1000*kN }
welding { process = "135", wire_price = 2.4/kg, gas_price = 6.5/m3, power_price = 0.28/kW/h, rows = { { 2.0*mm, from = 1.5*mm, to = 3*mm, wire = 0.8*mm, feed = 5.5*m/min, voltage = 18.8*V, current = 105*A, flow = 12*l/min, hand = 50*cm/min, robot = 60*cm/min }, { 2.0*mm, from = 3*mm, to = 6*mm, wire = 1.0*mm, feed = 5.5*m/min, voltage = 19.8*V, current = 120*A, hand = 50*cm/min } }, tack = { time = 6*s, length = 12*mm }, hand = { arc_on = 28*percent, rate = 50/h, torch = { radius = 10*mm, length = 60*mm } }, robot = { air_speed = 400*mm/s, start_time = 1.5*s, turn_time = 4*s, fixture_time = 4*min, load = 250*kg, reach = 1400*mm, bridges = 0.3, rate = 58/h }, capability = { placing = 0.3*mm } } -- here
