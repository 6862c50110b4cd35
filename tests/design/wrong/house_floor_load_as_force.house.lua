-- expect: is a force (1500 N), but a pressure is needed
house { name = "h" }
floor { combustible = true, load = 1.5*kN } -- here
