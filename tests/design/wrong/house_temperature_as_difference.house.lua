-- expect: is a temperature difference (10 K), but a temperature is needed, e.g. 20*degC
house { name = "h", least_temperature = 10*K } -- here
