-- expect: is missing: a stove description needs stove
group("g", {})
