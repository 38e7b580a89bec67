"""HTML to PDF through WeasyPrint.

In: a booklet's HTML, complete in itself. Out: the bytes of a tagged PDF (PDF/UA-1), or why there is
none. Nothing is fetched: fonts and pictures are in the HTML. Printers are asked not to scale.

WeasyPrint is an extra of the package and needs the system's Pango. Without either everything else
works.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

NO_PDF = (
    "PDF booklets need WeasyPrint and the Pango library, which are missing here; nothing else is "
    'affected. Install the package with its extra "pdf", and on Debian and Ubuntu: apt install '
    "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0. macOS: brew install pango."
)


def is_possible() -> bool:
    """Whether this machine can make PDF files."""
    return _weasyprint() is not None


def engine() -> str:
    """Which version makes them, "" where none can."""
    weasyprint = _weasyprint()
    return "" if weasyprint is None else str(weasyprint.__version__)


def to_pdf(html: str) -> tuple[bytes, tuple[str, ...]]:
    """Return (PDF, problems); the PDF is empty where there is a problem.

    The same HTML gives the same bytes with the same version of WeasyPrint.
    """
    weasyprint = _weasyprint()
    if weasyprint is None:
        return b"", (NO_PDF,)
    fetcher = weasyprint.URLFetcher(allowed_protocols={"data"}, fail_on_errors=True)
    document = weasyprint.HTML(string=html, url_fetcher=fetcher)
    return document.write_pdf(pdf_variant="pdf/ua-1", finisher=_at_true_size), ()


def _at_true_size(_document: Any, pdf: Any) -> None:
    """ISO 32000-1, table 150: no scaling when printed."""
    pdf.catalog["ViewerPreferences"]["PrintScaling"] = "/None"


def _weasyprint() -> Any | None:
    try:
        return import_module("weasyprint")
    except (ImportError, OSError):  # cffi raises OSError where a library is missing
        return None
