-- An invented house. Invented for demonstration; no real building.
house { name = "cottage with a brick chimney", note = "Invented for demonstration." }
