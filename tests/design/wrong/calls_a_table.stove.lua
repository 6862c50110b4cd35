-- expect: was called with the text "p", but a table in braces is needed
stove { name = "a", duty = { output = 7*kW, refuel = 45*min, efficiency = 0.8 } }
group("g", { title = "G" })
piece "p" -- here
