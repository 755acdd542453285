"""guidegen: bench records of PC power supplies in, a ranked and readable buying guide out."""
