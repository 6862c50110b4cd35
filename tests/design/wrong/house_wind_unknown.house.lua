-- expect: "free", "inland", "coast" is needed
house { name = "h", wind = "sea" } -- here
