-- expect: described a second time
house { name = "h" }
house { name = "h" } -- here
