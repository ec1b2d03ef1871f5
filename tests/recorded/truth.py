"""When each step of the tunic really begins in its captions, in seconds: where the first sentence about it was written.

Written down with the captions, before they were first aligned. Keys are ids of steps, and titles of takes of their own.
"""

from __future__ import annotations

TRUTH = {
    "Welcome": 3.5,
    "Fabric and notions": 58.4,
    "Choosing a size": 117.9,
    "Choosing the front": 144.8,
    "Cutting": 192.3,
    "hip length": 250.8,
    "mark": 306.7,
    "staystitch": 395.9,
    "fuse": 487.7,
    "darts": 563.9,
    "loops": 671.6,
    "baste loops": 779.7,
    "slit": 848.7,
    "cut slit": 958.5,
    "topstitch slit": 1047.6,
    "inner collar": 1189.4,
    "shoulders": 1237.9,
    "collar": 1363.0,
    "turn collar": 1448.5,
    "attach collar": 1494.5,
    "close collar": 1599.2,
    "sides B": 1696.4,
    "Trying on before the sleeves": 1782.6,
    "elbow sleeves": 1820.6,
    "bands": 1880.6,
    "attach bands": 1933.4,
    "close bands": 1990.0,
    "ease caps": 2047.3,
    "set sleeves": 2102.6,
    "try on": 2213.6,
    "hem": 2242.4,
    "buttons": 2317.1,
    "last press": 2381.9,
    "Goodbye": 2423.6,
}
# Sewn in the film and in no step, from its first sentence on.
EXTRA = 1104.2
NOT_FILMED = "finish armholes"
SWAPPED = ("inner collar", "shoulders")
# The step in which each is misheard, as the captions have it, and as it is printed.
MISHEARD = {
    ("staystitch", "one and a half inches", "1/2 in"),
    ("inner collar", "five and one eighth inches", "5/8 in"),
    ("hem", "34 inches", "3/4 in"),
}
