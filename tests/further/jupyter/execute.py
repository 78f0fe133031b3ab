"""Executes notebooks with nbclient; prints one JSON object per notebook.

Usage: python3 execute.py OUT NOTEBOOK...
"""
import json
import os
import sys
import time

import nbformat
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError

out, *files = sys.argv[1:]
for file in files:
    notebook = nbformat.read(file, as_version=4)
    client = NotebookClient(
        notebook,
        kernel_name="tslab",
        timeout=600,
        startup_timeout=120,
        # What a busy machine is slow to read is waited for; what is not read in time is a fault, not a loss in silence.
        iopub_timeout=120,
        raise_on_iopub_timeout=True,
        record_timing=False,
        resources={"metadata": {"path": os.path.dirname(os.path.abspath(file))}},
    )
    error = None
    begin = time.perf_counter()
    try:
        client.execute()
    except CellExecutionError as fault:
        error = str(fault)
    seconds = time.perf_counter() - begin
    nbformat.write(notebook, os.path.join(out, os.path.basename(file)))
    nbformat.validate(notebook)
    print(json.dumps({"file": os.path.basename(file), "seconds": seconds, "error": error}), flush=True)
