"""A tour of the program: `python demo/tour.py OUT` saves a picture of every screen and page.

It drives the real window on the invented club, without a display, in every language there is: every
screen with its tabs, and the dialogs around them, in a light and in a dark room, at 1280x800 and at
150 %; and every sheet in A4 and Letter, and as a printer without colour shows it.
`python demo/tour.py --guide` makes anew the pictures that stand in the guide. Needs the development
tools.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from pathlib import Path

from sheets import keep_sheets
from stops import keep_guide_pictures, keep_screens

from coachdesk.app.words import languages

LARGE = 1.5


def main() -> None:
    """Take the whole tour, or a part of it in a process of its own: Qt scales but once."""
    options = _options()
    if options.scale:
        keep_screens(options.out, options.language, options.scale)
    elif options.language:
        keep_guide_pictures(options.language)
    elif options.guide:
        for language in languages():
            _again("--language", language, scale=1.0)
    else:
        options.out.mkdir(parents=True, exist_ok=True)
        for language in languages():
            for scale in (1.0, LARGE):
                own = options.out / language
                _again(str(own), "--language", language, "--scale", str(scale), scale=scale)
        for language in languages():
            keep_sheets(options.out / language, language)


def _again(*arguments: str, scale: float) -> None:
    environment = {
        **os.environ,
        "QT_QPA_PLATFORM": "offscreen",
        "QT_SCALE_FACTOR": str(scale),
    }
    subprocess.run([sys.executable, __file__, *arguments], env=environment, check=True)


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path, nargs="?", metavar="OUT", help="where the pictures go")
    parser.add_argument("--guide", action="store_true", help="make the guide's pictures anew")
    parser.add_argument("--language", default="", help=argparse.SUPPRESS)
    parser.add_argument("--scale", type=float, default=0.0, help=argparse.SUPPRESS)
    options = parser.parse_args()
    if options.out is None and not options.guide and not options.language:
        parser.error("say where the pictures go, or --guide")
    return options


if __name__ == "__main__":
    main()
