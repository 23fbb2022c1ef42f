"""From a picture file to reflectance."""
