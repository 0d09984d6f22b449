"""Without the event loop."""

import pyodide_js

from . import _state as _state

# In the order in which Pyodide expects them when it writes a memory, or takes one over.
api = pyodide_js._api
HELD = (api, api.scheduleCallback, pyodide_js._api, pyodide_js.loadedPackages)
