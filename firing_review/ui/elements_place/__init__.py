"""The place "Elements": power, load and heat loss, the climb behind them, and meter readings."""
