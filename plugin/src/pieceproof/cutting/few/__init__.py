"""The shortest plan of not many strips, by their numbers.

search      the whole of it: a bound, then one search after the other
heights     how many strips of each height: branch and bound
supply      do so many strips suffice, if strips may be cut by halves; rules that follow
packing     which fillings make the pieces from so many strips
rounding    a small program in whole numbers, tightened by rounding cuts
"""
