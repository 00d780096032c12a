"""Who holds which square on which day, and how well that is known.

Other rooms ask ``occupancy``, ``stays``, ``sharing`` and ``shares``; the records, stretches and
settled stretches on the way there are this package's own.
"""
