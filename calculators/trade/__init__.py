"""What several calculators of the trade share: soil, pipes, fans, pumps, leaks, rules as they are judged, checks and cautions."""
