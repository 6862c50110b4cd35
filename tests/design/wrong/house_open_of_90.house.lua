-- expect: is 90, allowed is 0 to 1
house { name = "h" }
survey { open = 90 } -- here
