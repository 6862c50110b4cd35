-- expect: is 9000 m, allowed is -430 m to 5000 m
house { name = "h", altitude = 9000*m } -- here
