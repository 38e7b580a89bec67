"""Kits: N bags of cut cloth for one size and colourway, planned, cut, labelled and priced.

    book       what the shop states in its own file: cloths and bolts, habits, prices, runs
    stock      bytes of that file in, the book and its problems out
    orders     what is asked for, with the cloths that stand in for others
    contents   what lies in one bag, cloth by cloth
    batch      one cloth planned for all bags together, and for one bag alone
    bolts      strips shared out to real bolts; how many bags they make
    passes     strips stacked and cut across; cuts counted
    labels     labels for piles and bags
    cost       what the kits cost and sell for, from the shop's own figures
    sheet      all of the above for one order
    proof      cuts, packs and counts the sheet again; shares no code with the rest
    outdated   pictures, pages and booklets that show a cloth for which another stands in
    changes    what differs when a cloth stands in for another
    words      numbers and lengths as they are written
    tables, data, text   the sheet for CSV, for JSON, and for a terminal
    command    what the command line answers

Everything here is pure: bytes and plain data in, plain data out.
"""
