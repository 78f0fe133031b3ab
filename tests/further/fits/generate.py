"""Writes FITS files of many kinds with astropy, and what is in them as JSON.

Run: /usr/bin/python3 tests/further/fits/generate.py FOLDER

Expected values are worked out in numpy from the numbers that were put in, as doubles (64-bit integers as exact
whole numbers rounded once), not read back through astropy's own scaling, which uses single precision.
Seeded; needs astropy and numpy.
"""

import json
import sys
from pathlib import Path

import astropy
import numpy as np
from astropy.io import fits

out = Path(sys.argv[1])
out.mkdir(parents=True, exist_ok=True)
rng = np.random.default_rng(20260131)
cases = []


def doubles(values):
    """Row-major numbers, None where undefined."""
    return [None if np.isnan(v) else float(v) for v in np.asarray(values, dtype=np.float64).ravel()]


def case(name, hdus, expected):
    fits.HDUList(hdus).writeto(out / name, overwrite=True)
    cases.append({"file": name, "images": expected})


def image(hdu, name, shape, values, cards=None):
    return {"hdu": hdu, "name": name, "axes": [int(n) for n in reversed(shape)], "values": values, "cards": cards or {}}


kinds = {
    "u8": np.uint8, "i8": np.int8, "i16": np.int16, "u16": np.uint16, "i32": np.int32, "u32": np.uint32,
    "i64": np.int64, "u64": np.uint64, "f32": np.float32, "f64": np.float64,
}
for key, kind in kinds.items():
    for shape in [(37,), (5, 23), (3, 4, 7), (1, 2880)]:
        if np.issubdtype(kind, np.integer):
            info = np.iinfo(kind)
            data = rng.integers(info.min, info.max, size=shape, dtype=kind, endpoint=True)
            data.flat[0], data.flat[1], data.flat[2] = info.min, info.max, info.min + 1
            values = [float(int(v)) for v in data.ravel()]
        else:
            data = (rng.normal(size=shape) * 10.0 ** rng.integers(-20, 20, size=shape)).astype(kind)
            data.flat[0], data.flat[1] = np.nan, 0
            values = doubles(data)
        name = f"{key}_{'x'.join(map(str, shape))}"
        case(f"{name}.fits", [fits.PrimaryHDU(data)], [image(0, "", shape, values)])
        extension = fits.ImageHDU(data, name=name.upper())
        case(f"{name}_ext.fits", [fits.PrimaryHDU(), extension], [image(1, name.upper(), shape, values)])


def stored(name, raw, bscale, bzero, blank):
    """Writes stored integers as they are, with the scale in the header."""
    hdu = fits.PrimaryHDU(raw)
    hdu.writeto(out / name, overwrite=True)
    with fits.open(out / name, mode="update", do_not_scale_image_data=True) as f:
        f[0].header["BSCALE"] = bscale
        f[0].header["BZERO"] = bzero
        if blank is not None:
            f[0].header["BLANK"] = blank
    values = bzero + bscale * raw.astype(np.float64)
    if blank is not None:
        values[raw == blank] = np.nan
    cases.append({"file": name, "images": [image(0, "", raw.shape, doubles(values))]})


for kind in (np.uint8, np.int16, np.int32, np.int64):
    bits = np.dtype(kind).itemsize * 8
    raw = rng.integers(0, 120, size=(6, 11), dtype=kind)
    stored(f"scaled_{bits}.fits", raw, 0.25, -3.5, None)
    stored(f"blank_{bits}.fits", raw, 1.5e-3, 1234.5, int(raw.flat[7]))

# A file of many parts: tables, a heap of variable length, images between them.
table = fits.BinTableHDU.from_columns([
    fits.Column(name="n", format="J", array=np.arange(700)),
    fits.Column(name="v", format="PE()", array=np.array([np.arange(k % 9, dtype=np.float32) for k in range(700)], dtype=object)),
])
text = fits.TableHDU.from_columns([fits.Column(name="t", format="A7", array=np.array(["lamp", "dark"] * 99))])
first = rng.integers(0, 65535, size=(9, 31), dtype=np.uint16)
second = rng.normal(size=(4097,))
case(
    "many_parts.fits",
    [fits.PrimaryHDU(), table, fits.ImageHDU(first, name="LEFT"), text, fits.ImageHDU(), fits.ImageHDU(second, name="RIGHT")],
    [image(2, "LEFT", first.shape, doubles(first)), image(5, "RIGHT", second.shape, doubles(second))],
)

# Header values: quotes, long texts, exponents, logicals, long comments, 40 blocks of history.
hdu = fits.PrimaryHDU(np.arange(4, dtype=np.int16))
cards = {
    "OBSERVER": "it's a 'quoted' name / not a comment", "EXPTIME": 1.25e-7, "GAIN": -3.0e22, "COUNT": 9007199254740991,
    "LAMPON": True, "SHUT": False, "EMPTYSTR": "", "SLASH": "a/b",
}
for key, value in cards.items():
    hdu.header[key] = (value, "remark / with a slash")
hdu.header.append(fits.Card.fromstring("DEXP    =              1.5D+03 / written by Fortran".ljust(80)))
cards["DEXP"] = 1500.0
hdu.header["LONGTEXT"] = "x" * 200
for i in range(1400):
    hdu.header.add_history(f"step {i}")
case("header.fits", [hdu], [image(0, "", (4,), [0.0, 1.0, 2.0, 3.0], cards)])

# Files that astropy carries for its own tests, made by other programs: stored numbers as numpy sees them, scaled here.
own = Path(fits.__file__).parent / "tests" / "data"
for name in ["arange", "scale", "fixed-1890", "test0", "test1", "checksum", "blank", "o4sp040b0_raw", "double_ext", "tb", "btable",
             "stddata", "history_header", "theap-gap", "variable_length_table", "memtest"]:
    path = own / f"{name}.fits"
    if not path.exists():
        continue
    images = []
    with fits.open(path, do_not_scale_image_data=True) as f:
        for k, h in enumerate(f):
            if not isinstance(h, (fits.PrimaryHDU, fits.ImageHDU)) or h.header["NAXIS"] == 0 or h.data is None:
                continue
            raw, header = h.data, h.header
            bscale, bzero = float(header.get("BSCALE", 1)), float(header.get("BZERO", 0))
            values = bzero + bscale * raw.astype(np.float64)
            if "BLANK" in header and header["BITPIX"] > 0:
                values[raw == header["BLANK"]] = np.nan
            images.append(image(k, header.get("EXTNAME", "").strip(), raw.shape, doubles(values)))
    if images:
        (out / f"own_{path.name}").write_bytes(path.read_bytes())
        cases.append({"file": f"own_{path.name}", "images": images})

# To be refused, with what must be said.
refused = []
fits.HDUList([fits.PrimaryHDU(), fits.CompImageHDU(np.arange(10000, dtype=np.int16).reshape(100, 100))]).writeto(out / "compressed.fits", overwrite=True)
refused.append({"file": "compressed.fits", "says": "tile-compressed"})
groups = fits.GroupData(np.arange(100.0, dtype=np.float32).reshape(10, 1, 1, 2, 5), bitpix=-32, parnames=["a"], pardata=[np.arange(10.0)])
fits.GroupsHDU(groups).writeto(out / "groups.fits", overwrite=True)
refused.append({"file": "groups.fits", "says": "random groups"})
whole = (out / "f64_5x23.fits").read_bytes()
(out / "cut.fits").write_bytes(whole[: 2880 + 500])
refused.append({"file": "cut.fits", "says": "cut short"})
(out / "cut_header.fits").write_bytes(whole[:240])
refused.append({"file": "cut_header.fits", "says": "no END card"})

json.dump(
    {"versions": {"astropy": astropy.__version__, "numpy": np.__version__}, "cases": cases, "refused": refused},
    open(out / "expected.json", "w"),
)
print(f"{len(cases)} files to read and {len(refused)} to refuse written to {out}")
