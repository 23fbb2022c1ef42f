"""The link to a controller: requests and replies over any byte stream, and what is done with them."""
