-- expect: the shield stands between them
house { name = "h" }
near { name = "n", side = "back", distance = 100*mm, shield = 120*mm, combustible = true } -- here
