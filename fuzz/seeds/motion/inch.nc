%
N10 G20 G91 (inch)
N20 g0 x1. y1 ; go
M3
G2 I.5 F10
G1X+1
M5
M2
%
