-- expect: is -100 degC, allowed is -60 degC to 15 degC
house { name = "h", least_temperature = -100*degC } -- here
