"""What controllers recorded, brought home: records, and the rows that are made from them."""
