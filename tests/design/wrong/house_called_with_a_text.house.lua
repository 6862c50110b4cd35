-- expect: but a table in braces is needed
house { name = "h" }
flue "long" -- here
