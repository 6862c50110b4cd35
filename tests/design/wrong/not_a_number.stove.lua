-- expect: is not a finite number
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
opening { name = "o", kind = "wash", area = (0/0)*mm2, height = 0*mm } -- here
