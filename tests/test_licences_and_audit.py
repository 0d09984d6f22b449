"""The page of licences names what is shipped, and the audit never takes silence for a clean bill."""

import json

import pytest

from scripts import audit, site_licences

FOUND = {"metadata": {"vulnerabilities": {"total": 1}, "dependencies": {"total": 9}}, "vulnerabilities": {"x": {"severity": "high"}}}
NONE = {"metadata": {"vulnerabilities": {"total": 0}, "dependencies": {"total": 9}}}


def test_what_is_shipped_is_on_the_page(site):
    """Each package of which a file is in the site stands on the page with its licence, and its notice in the text file."""
    page = (site / "licences" / "index.html").read_text(encoding="utf-8")
    text = (site / site_licences.NOTICES).read_text(encoding="utf-8")
    for kind, name, _ in site_licences.SHIPPED:
        version, licence, _ = site_licences.READERS[kind](name)
        assert f"{name} {version}" in page
        assert f"{name} {version} ({licence})" in text
    assert text.count("Permission is hereby granted, free of charge") == 2  # theme and square code, both MIT
    assert "CC BY 4.0" in page


def test_nothing_else_is_vendored(site):
    """Scripts of others lie in three places that the list covers; a fourth would be seen here."""
    ours = {file.name for file in (site_licences.ROOT / "docs" / "assets" / "js").iterdir()}
    scripts = {file.relative_to(site).as_posix() for file in site.rglob("*") if file.suffix in (".js", ".mjs", ".wasm")}
    foreign = {name for name in scripts if not (name.startswith("assets/js/") and name.count("/") == 2 and name.rpartition("/")[2] in ours)}
    places = ("assets/javascripts/", "assets/js/vendor/uqr.mjs", "engine/")
    built = ("assets/js/", "assets/css/")  # made from our own files by the build
    assert [name for name in foreign - {"sw.js"} if not name.startswith((*places, *built))] == []
    assert {file.name for file in (site / "assets" / "js" / "vendor").iterdir()} == {"uqr.mjs"}


@pytest.mark.parametrize(("text", "status"), [
    (json.dumps(NONE), audit.FINE), (json.dumps(FOUND), audit.KNOWN), ("", audit.SILENT), ("not allowed", audit.SILENT), ("[]", audit.SILENT), ("{}", audit.SILENT),
])
def test_npm_report(text, status):
    """No report, or one of another shape, is no clean bill."""
    assert audit.read_npm(text)[0] == status


@pytest.mark.parametrize(("rows", "status"), [
    ([{"name": "a", "version": "1", "vulns": []}], audit.FINE),
    ([{"name": "a", "version": "1", "vulns": [{"id": "X-1"}]}], audit.KNOWN),
    ([{"name": "a", "skip_reason": "not found"}], audit.SILENT),
])
def test_pip_report(rows, status):
    """A package that the index skipped was not looked at."""
    assert audit.read_pip(json.dumps({"dependencies": rows}))[0] == status
    assert audit.read_pip("{", "refused")[0] == audit.SILENT
