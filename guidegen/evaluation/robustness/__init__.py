"""How sure an order is: what the measurements leave open, what the weights leave open, and what would unseat the first.

``draws`` draws, ``fields`` gives the values of a bracket in each draw, ``acceptability`` counts places,
``rank_sets`` bounds places with confidence, ``stability`` asks how far weights must move, ``results`` has it all.
"""
