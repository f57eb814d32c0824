"""Reads DXF files with ezdxf, a general reader: prints per file its release, what a strict audit finds, and the extent of the layers.

Output, a line a file: name release errors fixes texts cut_min_x cut_min_y cut_max_x cut_max_y
"""
import os
import sys

import ezdxf

for path in sys.argv[1:]:
    document = ezdxf.readfile(path)
    audit = document.audit()
    texts, xs, ys = 0, [0.0], [0.0]
    for entity in document.modelspace():
        texts += entity.dxftype() == "TEXT"
        if entity.dxf.layer == "CUT" and entity.dxftype() == "POLYLINE":
            xs += [vertex.dxf.location.x for vertex in entity.vertices]
            ys += [vertex.dxf.location.y for vertex in entity.vertices]
    print(os.path.basename(path), document.dxfversion, len(audit.errors), len(audit.fixes), texts,
          *(f"{value:.4f}" for value in (min(xs), min(ys), max(xs), max(ys))))
