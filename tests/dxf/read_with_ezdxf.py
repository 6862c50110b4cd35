"""Reads the plate written by test_round_trip.c with ezdxf and compares it with what was drawn.

Exit 0: the same; 1: not; 77: ezdxf is not installed.
"""
import math
import sys

try:
    import ezdxf
    from ezdxf.lldxf.encoding import decode_dxf_unicode
except ImportError:
    print("  (ezdxf is not installed: not compared)")
    sys.exit(77)


def near(got, want, what, tolerance=1e-9):
    if abs(got - want) > tolerance:
        sys.exit(f"  {what}: ezdxf reads {got}, drawn was {want}")


def polyline_area(points):
    """Shoelace plus circular segments, from (x, y, bulge)."""
    area = 0.0
    for (x0, y0, bulge), (x1, y1, _) in zip(points, points[1:] + points[:1]):
        area += 0.5 * (x0 * y1 - x1 * y0)
        if bulge:
            angle, chord = 4 * math.atan(bulge), math.hypot(x1 - x0, y1 - y0)
            radius = chord / (2 * math.sin(abs(angle) / 2))
            area += math.copysign(radius**2 * (abs(angle) - math.sin(abs(angle))) / 2, bulge)
    return area


def main(path):
    drawing = ezdxf.readfile(path)
    space = drawing.modelspace()
    near(drawing.header["$INSUNITS"], 4, "unit")
    kinds = sorted(entity.dxftype() for entity in space)
    wanted = ["CIRCLE", "LINE", "POLYLINE", "POLYLINE", "TEXT"]
    if kinds != wanted:
        sys.exit(f"  ezdxf reads {kinds}, drawn were {wanted}")
    for layer, colour in (("CUT", 1), ("BEND", 3), ("ETCH", 5)):
        near(drawing.layers.get(layer).color, colour, f"colour of {layer}")
    circle = space.query("CIRCLE").first
    for got, want in zip((*circle.dxf.center, circle.dxf.radius), (30, 30, 0, 10)):
        near(got, want, "circle")
    line = space.query("LINE").first
    for got, want in zip((*line.dxf.start, *line.dxf.end), (0, 20, 0, 100, 20.125, 0)):
        near(got, want, "bend line")
    outline, slot = space.query("POLYLINE")
    points = [(*v.dxf.location.vec2, v.dxf.get("bulge", 0.0)) for v in outline.vertices]
    near(len(points), 8, "vertices of the outline")
    near(polyline_area(points), 6000 - (4 - math.pi) * 64, "area of the outline")
    near(points[0][0], 8, "first vertex")
    points = [(*v.dxf.location.vec2, v.dxf.get("bulge", 0.0)) for v in slot.vertices]
    near(polyline_area(points), math.hypot(20, 5) * 12 + math.pi * 36, "area of the slot", 8e-8)  # nine decimals along 80 mm
    if not (outline.is_closed and slot.is_closed):
        sys.exit("  ezdxf reads an open polyline, drawn was a closed one")
    text = space.query("TEXT").first
    if decode_dxf_unicode(text.dxf.text) != "T\u00fcr 1":
        sys.exit(f"  ezdxf reads the text {text.dxf.text!r}")
    near(text.dxf.rotation, 30, "turn of the text")
    errors = drawing.audit().errors
    if errors:
        sys.exit(f"  ezdxf finds faults: {[error.message for error in errors]}")


main(sys.argv[1])
