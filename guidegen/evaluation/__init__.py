"""Numbers in, results out: measures, verdicts, scores, rankings, sizing. Pure; touches no file and no clock."""
