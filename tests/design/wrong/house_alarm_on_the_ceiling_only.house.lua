-- expect: an alarm on the ceiling needs it
house { name = "h" }
alarm { on = "ceiling", from_stove = 2*m } -- here
