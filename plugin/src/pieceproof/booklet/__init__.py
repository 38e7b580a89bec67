"""Patterns on paper: booklets, true-scale templates and foundations, as PDF.

In: a compiled pattern with its prose. Out: the bytes of PDF files. Every number comes from the
publication, the instructions and the cloth requirements; sheets are arranged here, nothing else is
computed. The disk and the cache belong to `pressroom`.
"""
