"""Pure formulas, one module a subject: floats or arrays in SI, keyword arguments, no state."""
