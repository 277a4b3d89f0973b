"""The findings as a numbered list beside the chart."""
