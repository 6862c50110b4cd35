-- expect: did you mean 'name'?
house { name = "h", nmae = "x" } -- here
