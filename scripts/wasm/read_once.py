"""Has each module read once from the archive that the page's Python starts from; imported there before the calculators.

To say where a module lies, zipimport reads and unmarshals its code, and does so again to run it.  Here it looks in its
list of files, in the same order.
"""

import zipimport


def get_filename(self: zipimport.zipimporter, name: str) -> str:
    """The module's place in the archive.  Raises ZipImportError when it is not there."""
    path = zipimport._get_module_path(self, name)
    for ending, _, _ in zipimport._zip_searchorder:
        if path + ending in self._get_files():
            return f"{self.archive}/{path}{ending}"
    raise zipimport.ZipImportError(f"can't find module {name!r}", name=name)


zipimport.zipimporter.get_filename = get_filename  # type: ignore[method-assign]
