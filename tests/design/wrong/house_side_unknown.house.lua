-- expect: "back", "left", "right", "front", "above" is needed
house { name = "h" }
near { name = "n", side = "behind", distance = 1*m, combustible = true } -- here
