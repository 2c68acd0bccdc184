"""Runs the study of curl trials and ends with 1 when its intervals hold the truth too seldom."""

import sys

from scripts.study.curl import AIM, study

CASES = 500

found = study(CASES)
print("\n".join(found.lines()))
sys.exit(found.held < AIM)
