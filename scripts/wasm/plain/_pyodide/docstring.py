"""The functions that Pyodide adds are for programs here, not for readers."""


def dedent_docstring(docstring: str) -> str:
    return ""


def get_cmeth_docstring(func: object) -> str:
    return ""
