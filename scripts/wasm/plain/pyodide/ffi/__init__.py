"""What Pyodide's start takes from here."""

import _pyodide._core_docs
import _pyodide_core
from _pyodide._core_docs import JsProxy as JsProxy
from _pyodide._importhook import register_js_module as register_js_module

_pyodide._core_docs._js_flags = _pyodide_core.js_flags
