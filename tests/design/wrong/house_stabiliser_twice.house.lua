-- expect: second time
house { name = "h" }
stabiliser { set = 10*Pa }
stabiliser { set = 12*Pa } -- here
