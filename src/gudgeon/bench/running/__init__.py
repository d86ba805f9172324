"""Does it run right? What is expected of the engine that was rebuilt, and what was measured of it."""
