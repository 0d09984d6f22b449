"""How values go between Python and JavaScript where nothing is said about it, which is everywhere here."""

from _pyodide_core import JsFuncSignature, js2py_default_call_result, py2js_default

no_default = object()


def _anything(*args: object, **kwargs: object) -> None:
    pass


default_signature = JsFuncSignature(_anything, False, 0, (), (), py2js_default, (), (), (), py2js_default, js2py_default_call_result)
