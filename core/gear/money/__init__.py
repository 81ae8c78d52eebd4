"""What rigs cost: prices, swaps, the cheapest that will do, the step to the next."""
