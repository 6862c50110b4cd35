-- expect: outside its own bounds
house { name = "h" }
local x = parameter("lined", 2, { min = 0, max = 1 }) -- here
