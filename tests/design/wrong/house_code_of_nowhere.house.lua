-- expect: but one of "physics", "England", "Germany", "France", "USA" is needed
house { name = "h", code = "Englnd" } -- here
