"""The one stylesheet of all pictures. The page serves it; the book and a saved picture carry it inside.

Plain class selectors and plain colours only, since the typesetter's SVG reader knows no more. Every difference in colour is
also one in line, lining or words, so that a black-and-white print says the same.
"""

PAPER = "#f3eddf"
SHEET = "#fcf8ee"
INK = "#1d1e1b"
FAINT = "#5c5648"
RULE = "#cdc3ac"
BLUE = "#1b4a94"
WASH = "#dbe5f4"
LEAD = "#b0381d"
LEADWASH = "#f6dcd1"

STYLE = f"""
.picture{{font-family:system-ui,"Segoe UI","Noto Sans","DejaVu Sans",sans-serif;font-variant-numeric:tabular-nums}}
.pic-text{{fill:{INK};font-size:13px}}
.pic-name{{fill:{INK};font-size:13px;font-weight:600}}
.pic-note{{fill:{FAINT};font-size:12px}}
.pic-warn{{fill:{LEAD};font-size:12px;font-weight:600}}
.pic-ask{{fill:{BLUE};font-size:12px;font-weight:600}}
.pic-figure{{fill:{INK};font-size:13px;font-weight:600}}
.pic-outline{{stroke:{INK};stroke-width:1.6;fill:{SHEET};stroke-linejoin:round}}
.pic-thick{{stroke:{INK};stroke-width:1.8;fill:none;stroke-linejoin:round}}
.pic-thin{{stroke:{INK};stroke-width:.9;fill:none;stroke-linejoin:round}}
.pic-hidden{{stroke:{INK};stroke-width:.9;fill:none;stroke-dasharray:5 3}}
.pic-centre{{stroke:{FAINT};stroke-width:.7;fill:none;stroke-dasharray:12 3 2 3}}
.pic-cut{{stroke:{INK};stroke-width:1.3;stroke-linejoin:round}}
.pic-hatch{{stroke:{INK};stroke-width:.5;fill:none}}
.pic-dot{{fill:{INK}}}
.pic-solid{{fill:{INK};stroke:none}}
.pic-water{{stroke:{INK};stroke-width:.5;fill:none;stroke-dasharray:7 3}}
.pic-leader{{stroke:{INK};stroke-width:.75;fill:none}}
.pic-tip{{fill:{INK};stroke:none}}
.pic-balloon{{fill:{SHEET};stroke:{INK};stroke-width:1}}
.pic-balloon-text{{fill:{INK};font-size:11px;font-weight:600}}
.pic-blue .pic-body{{fill:{WASH};stroke:{BLUE};stroke-width:1.9}}
.pic-red .pic-body{{fill:{LEADWASH};stroke:{LEAD};stroke-width:2.4;stroke-dasharray:7 2}}
.pic-body{{stroke:{INK};stroke-width:1.5;fill:{SHEET};stroke-linejoin:round}}
.pic-paper{{fill:{SHEET};stroke:none}}
.pic-unsure{{opacity:.8}}
.pic-unsure .pic-body{{stroke-dasharray:4 3;stroke-width:1}}
.pic-target{{fill:{WASH};stroke:none}}
.pic-target-edge{{stroke:{BLUE};stroke-width:2;fill:none}}
.pic-limit{{stroke:{LEAD};stroke-width:2.5;fill:none}}
.pic-wall{{fill:{RULE};stroke:{INK};stroke-width:.8}}
.pic-past{{fill:{LEADWASH};stroke:none}}
.pic-axis{{stroke:{INK};stroke-width:1;fill:none}}
.pic-grid{{stroke:{RULE};stroke-width:.8;fill:none}}
.pic-cell{{fill:{BLUE};stroke:none}}
.pic-bar{{fill:{BLUE};stroke:{INK};stroke-width:.8}}
.pic-bar-other{{fill:{SHEET};stroke:{INK};stroke-width:.8}}
.pic-reading{{fill:{SHEET};stroke:{INK};stroke-width:1.3}}
.pic-line-a{{stroke:{BLUE};stroke-width:2.2;fill:none;stroke-linejoin:round}}
.pic-line-b{{stroke:{INK};stroke-width:1.6;fill:none;stroke-linejoin:round;stroke-dasharray:7 4}}
.pic-line-c{{stroke:{LEAD};stroke-width:1.8;fill:none;stroke-linejoin:round;stroke-dasharray:2 3}}
.pic-line-d{{stroke:{FAINT};stroke-width:1.8;fill:none;stroke-linejoin:round;stroke-dasharray:10 3 2 3}}
.pic-worn{{stroke:{BLUE};stroke-width:2;fill:{WASH};fill-opacity:.6}}
.pic-clean{{stroke:{LEAD};stroke-width:1.6;fill:none;stroke-dasharray:8 4}}
.pic-branch{{stroke:{INK};fill:none;stroke-linecap:butt}}
.pic-knot{{fill:{SHEET};stroke:{INK};stroke-width:1.6}}
.pic-knot-done{{fill:{INK};stroke:{INK};stroke-width:1.6}}
.pic-knot-shop{{fill:{WASH};stroke:{BLUE};stroke-width:2}}
.pic-over{{stroke:{LEAD};stroke-width:5;fill:none}}
.pic-over-under{{stroke:{SHEET};stroke-width:10;fill:none;stroke-linecap:round}}
.pic-over-tip{{fill:{LEAD};stroke:{SHEET};stroke-width:2}}
.pic-over-text{{fill:{LEAD};stroke:{SHEET};stroke-width:7;paint-order:stroke;font-size:34px;font-weight:600}}
a .pic-body{{cursor:pointer}}
"""


def standalone(svg: str) -> str:
    """The picture with its stylesheet inside, for the book and for a file of its own."""
    start = svg.index(">", svg.index("<svg")) + 1
    return f"{svg[:start]}<style>{STYLE}</style>{svg[start:]}"
