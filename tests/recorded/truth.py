"""When each step of the tunic really begins in its captions, in seconds: where the first sentence about it was written.

Written down with the captions, before they were first aligned. Keys are ids of steps, and titles of takes of their own.
"""

from __future__ import annotations

TRUTH = {
    "Welcome": 3.5,
    "Fabric and notions": 59.5,
    "Choosing the front": 120.6,
    "hip length": 172.2,
    "mark": 231.6,
    "staystitch": 327.6,
    "fuse": 427.2,
    "darts": 509.7,
    "loops": 626.1,
    "baste loops": 742.6,
    "slit": 816.3,
    "cut slit": 935.3,
    "topstitch slit": 1030.9,
    "inner collar": 1184.5,
    "shoulders": 1235.5,
    "collar": 1372.0,
    "turn collar": 1464.1,
    "attach collar": 1513.7,
    "close collar": 1626.8,
    "sides B": 1733.0,
    "Trying on before the sleeves": 1828.5,
    "elbow sleeves": 1868.8,
    "bands": 1934.1,
    "attach bands": 1990.9,
    "close bands": 2052.4,
    "ease caps": 2115.9,
    "set sleeves": 2176.0,
    "try on": 2297.8,
    "hem": 2327.9,
    "buttons": 2410.4,
    "last press": 2482.1,
    "Goodbye": 2527.5,
}
# Sewn in the film and in no step, from its first sentence on.
EXTRA = 1092.3
NOT_FILMED = "finish armholes"
SWAPPED = ("inner collar", "shoulders")
# The step in which each is misheard, as the captions have it, and as it is printed.
MISHEARD = {
    ("staystitch", "one and a half inches", "1/2 in"),
    ("inner collar", "five and one eighth inches", "5/8 in"),
    ("hem", "34 inches", "3/4 in"),
}
