-- expect: unknown name 'works'
works { name = "w" } -- here
