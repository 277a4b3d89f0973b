"""The place "Firing": chart and segments, with findings, schedule, kiln and safety beside."""
