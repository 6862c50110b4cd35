-- expect: did you mean 'primary'?
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
opening { name = "o", kind = "primry", area = 3*mm2, height = 0*mm } -- here
