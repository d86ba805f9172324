"""A template at true scale: places traced from a photo, and pages that they are split over."""
