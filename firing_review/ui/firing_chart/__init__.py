"""The firing as a chart: temperature, rate and output over one time axis."""
