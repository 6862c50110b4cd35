-- expect: needs house
local a = 1
