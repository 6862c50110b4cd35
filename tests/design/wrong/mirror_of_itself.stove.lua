-- expect: goes round in a circle
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
mirror("a", { number = "1", name = "b", plane = "x" })
mirror("b", { number = "2", name = "a", plane = "x" }) -- here
