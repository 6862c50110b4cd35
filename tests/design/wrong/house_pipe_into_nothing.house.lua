-- expect: leads into no chimney
house { name = "h" }
pipe { diameter = 150*mm, length = 1*m, rise = 1*m } -- here
