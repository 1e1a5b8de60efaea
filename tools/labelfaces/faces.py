# faces.py IN OUT: one face as TrueType outlines without hinting, names or
# layout tables, cut to what people write on labels.
import sys
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools import subset
from fontTools.ttLib import TTFont, newTable

font = TTFont(sys.argv[1], recalcTimestamp=False)
options = subset.Options(hinting=False, layout_features=[], name_IDs=[0, 13, 14], notdef_outline=True, glyph_names=False)
cut = subset.Subsetter(options)
cut.populate(unicodes=[*range(0x20, 0x250), *range(0x370, 0x400), *range(0x2000, 0x2400)])
cut.subset(font)
if font.sfntVersion == "OTTO":
    order, glyphs = font.getGlyphOrder(), font.getGlyphSet()
    glyf = newTable("glyf")
    glyf.glyphOrder, glyf.glyphs = order, {}
    for name in order:
        pen = TTGlyphPen(None)
        glyphs[name].draw(Cu2QuPen(pen, 1, reverse_direction=True))
        glyf.glyphs[name] = pen.glyph()
    font["loca"], font["glyf"] = newTable("loca"), glyf
    glyf.compile(font)
    for name in order:
        font["hmtx"][name] = (font["hmtx"][name][0], getattr(glyf.glyphs[name], "xMin", 0))
    maxp = font["maxp"] = newTable("maxp")
    maxp.tableVersion, maxp.numGlyphs = 0x00010000, len(order)
    for field in "maxZones maxTwilightPoints maxStorage maxFunctionDefs maxInstructionDefs maxStackElements maxSizeOfInstructions maxComponentElements maxPoints maxContours maxCompositePoints maxCompositeContours maxComponentDepth".split():
        setattr(maxp, field, 1 if field == "maxZones" else 0)
    post = font["post"]
    post.formatType, post.extraNames, post.mapping, post.glyphOrder = 3.0, [], {}, order
    for table in ("CFF ", "VORG"):
        if table in font:
            del font[table]
    font.sfntVersion = "\000\001\000\000"
for table in ("DSIG", "GPOS", "GSUB", "GDEF", "kern", "FFTM", "gasp"):
    if table in font:
        del font[table]
font.save(sys.argv[2])
