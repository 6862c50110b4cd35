-- expect: is a flow (5 m3/h), but a flow by area is needed, e.g. 5*m3/h/m2
house { name = "h" }
room { permeability = 5*m3/h } -- here
