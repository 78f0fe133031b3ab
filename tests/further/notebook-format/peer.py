"""What Python's nbformat says of notebooks: `validate FOLDER COUNT` or `rewrite FROM TO`."""

import json
import sys
from pathlib import Path

import nbformat
from jsonschema import Draft4Validator

action, *words = sys.argv[1:]
if action == "validate":
    schema = json.loads(Path(nbformat.__file__).with_name("v4").joinpath("nbformat.v4.5.schema.json").read_text())
    judge = Draft4Validator(schema)
    folder, count = Path(words[0]), int(words[1])
    print(json.dumps([judge.is_valid(json.loads(Path(folder, f"{i}.json").read_text("utf-8"))) for i in range(count)]))
else:
    nbformat.write(nbformat.read(words[0], as_version=4), words[1])
    print("{}")
