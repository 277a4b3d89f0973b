"""The place "Causes": ranked cards, and questions that rank them anew."""
