#!/usr/bin/python3
"""Triangles of the same points by scipy, for comparison in one run.

    bench_surface.py FILE SECONDS

FILE holds a survey, point,northing,easting,elevation; SECONDS is what culvertwright took for the triangles.
"""
import resource
import sys
import time

import numpy as np
from scipy.spatial import Delaunay

points = np.loadtxt(sys.argv[1], delimiter=",", usecols=(2, 1))
start = time.process_time()
mesh = Delaunay(points)
taken = time.process_time() - start
memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(f"  scipy.spatial.Delaunay: {len(mesh.simplices)} faces in {taken:.2f} s, {memory:.0f} MiB; "
      f"ours takes {float(sys.argv[2]) / taken:.2f} of its time")
