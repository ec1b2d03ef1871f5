"""WeasyPrint alone, with its defaults and the booklet's PDF variant: plain_weasyprint.py HTML PDF"""

import sys

from weasyprint import HTML

HTML(filename=sys.argv[1]).write_pdf(sys.argv[2], pdf_variant="pdf/ua-1")
