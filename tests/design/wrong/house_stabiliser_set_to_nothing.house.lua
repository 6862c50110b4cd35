-- expect: is 0 Pa, allowed is 1 Pa to 100 Pa
house { name = "h" }
stabiliser { set = 0*Pa } -- here
