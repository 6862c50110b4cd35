-- expect: but one of "physics", "England", "Germany", "France", "Czechia", "USA" is needed
house { name = "h", code = "Englnd" } -- here
