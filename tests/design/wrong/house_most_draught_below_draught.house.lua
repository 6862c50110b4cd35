-- expect: less than the draught of 12 Pa
house { name = "h" }
declared { draught = 12*Pa, most_draught = 10*Pa } -- here
