"""The cutting planner: cut rectangles and cloth in, a plan for ruler and rotary cutter out.

It knows nothing of patchwork: no blocks, no seams but those that join strips end to end.

    demand     what has to be cut, and from which cloth
    plan       what the planner answers: strips, sub-cuts, joined strips
    planner    plan(demand): the shortest plan it can find, and how short any plan could be
    greedy     plans as people make them; the planner is never longer
    shortest   the search for a shorter one and for its proof, on the grid and board of whole steps:
               relaxed gives a bound, raised by roundings; others, remainders, heaps and meeting try
               one length after the other, branching case by case; few searches plans of few
               strips, improve shortens those of many
    choose     which of several plans is cut: the tie-breaks
    cuts       how many cuts a plan takes, by kind
    yardage    the length to publish, the room in it and the mistakes it forgives
    check      cuts a plan edge to edge and counts what falls out; shares no code with the planner
"""
