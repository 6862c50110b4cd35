-- The house the stove is meant for. Invented for demonstration.
house { name = "example house", note = "Invented for demonstration." }
