"""Makes NotoSans-figures.ttf from two fonts of the Noto project (fonttools 4.38).

python3 make.py NotoSans-Regular.ttf NotoSansMath-Regular.ttf NotoSans-figures.ttf
"""

import sys
import tempfile
from pathlib import Path

from fontTools.merge import Merger
from fontTools.subset import main as subset
from fontTools.ttLib import TTFont

LETTERS = (
    "U+0020-007E,U+00A0-017F,U+018F,U+0192,U+0218-021B,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0300-0304,U+0308,"
    "U+0370-03FF,U+2000-200B,U+2010-2027,U+202F-203A,U+2044,U+2070-209C,U+20AC,U+2113,U+2116,U+2122,U+2126,U+212B,"
    "U+215B-215E,U+2212,U+2215,U+2219"
)
SIGNS = (
    "U+2190-2195,U+21D2,U+2202,U+2206-2208,U+220F,U+2211,U+2213,U+221A,U+221D-221E,U+2220,U+2229-222B,U+2248,"
    "U+2260-2261,U+2264-2265,U+226A-226B,U+2295,U+2297,U+2299,U+22C5,U+25A0-25A1,U+25B2-25B3,U+25BC-25BD,"
    "U+25C6-25C7,U+25CB,U+25CF,U+2605-2606"
)
PLAIN = ["--layout-features=", "--no-hinting", "--notdef-outline", "--drop-tables+=GDEF,GPOS,GSUB,MATH,STAT"]
NAMES = (0, 1, 2, 3, 4, 5, 6, 7, 13, 14)

letters_file, signs_file, out_file = sys.argv[1:]
with tempfile.TemporaryDirectory() as folder:
    letters, signs = str(Path(folder, "letters.ttf")), str(Path(folder, "signs.ttf"))
    subset([letters_file, f"--unicodes={LETTERS}", "--name-IDs=*", f"--output-file={letters}", *PLAIN])
    subset([signs_file, f"--unicodes={SIGNS}", f"--output-file={signs}", *PLAIN])
    font = Merger().merge([letters, signs])
    first = TTFont(letters)
font["name"] = first["name"]
font["name"].names = [name for name in font["name"].names if name.nameID in NAMES]
for field in ("ascent", "descent", "lineGap"):
    setattr(font["hhea"], field, getattr(first["hhea"], field))
for field in ("sTypoAscender", "sTypoDescender", "sTypoLineGap", "usWinAscent", "usWinDescent"):
    setattr(font["OS/2"], field, getattr(first["OS/2"], field))
font.recalcTimestamp = False
font["head"].created = font["head"].modified = first["head"].created
font.save(out_file)
