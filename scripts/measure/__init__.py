"""What scripts/bench.py measures with: a link that can be cut, a brake for the browser, pages to compare with."""
