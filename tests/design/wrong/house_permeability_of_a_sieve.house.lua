-- expect: is 500 m3/h/m2, allowed is 0 m3/h/m2 to 100 m3/h/m2
house { name = "h" }
room { permeability = 500*m3/h/m2 } -- here
