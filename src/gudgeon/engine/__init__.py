"""What an engine is made of, and the frozen types that the rooms hand each other."""
