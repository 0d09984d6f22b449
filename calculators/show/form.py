"""A form from a declaration: what is asked first, what is folded away, lists, groups that exclude each other."""

from typing import Any

from ..declare import REQUIRED, Choice, Declaration, Field, List, Quantity, Record
from .controls import Place, Start, control, hint, split
from .figures import unit_text
from .markup import Markup, el, join
from .phrases import GROUPS, SELDOM, TOGETHER, lower_first

MOST = 8  # members of an object that all stand open


def form(declared: Declaration, inputs: dict[str, Any], uid: str, system: str) -> Markup:
    """The whole form.  It is disabled as built: without a script it is a printed example."""
    return _Form(declared, inputs, uid, system).whole()


class _Form:
    def __init__(self, declared: Declaration, inputs: dict[str, Any], uid: str, system: str) -> None:
        self.declared, self.inputs, self.uid, self.system = declared, inputs, uid, system
        self.together = TOGETHER.get(declared.name, {})
        self.values = {name: value for name, value in inputs.items() if isinstance(value, str)}

    def whole(self) -> Markup:
        first, folded = self.parts()
        more = None
        if folded:
            more = el("details", el("summary", "More numbers"), *folded, class_="more")
        units = el(
            "fieldset",
            el("legend", "Units"),
            el("div", *(self.unit_box(s, label) for s, label in (("us", "US"), ("si", "SI"))), class_="picks"),
            class_="choice",
        )
        acts = el(
            "div",
            el("button", "Copy a link with these numbers", type="button", class_="act", data_act="link"),
            el("button", "Back to the example", type="button", class_="act", data_act="reset"),
            el(
                "button",
                "Keypad with letters",
                type="button",
                class_="act act--keypad",
                data_act="letters",
                aria_pressed="false",
            ),
            class_="acts",
        )
        note = el(
            "p",
            "A worked example. Its numbers can be changed once the calculator has started.",
            class_="hint",
            data_slot="engine",
        )
        inside = el("fieldset", el("legend", "Your numbers"), note, units, *first, more, acts, disabled=True)
        return el(
            "form",
            inside,
            el("p", class_="small", role="status", data_slot="said"),
            class_="numbers",
            novalidate=True,
            autocomplete="off",
        )

    def unit_box(self, system: str, label: str) -> Markup:
        box = el(
            "input",
            type="radio",
            name=f"{self.uid}-units",
            value=system,
            checked=system == self.system,
            data_units=True,
        )
        return el("label", box, el("span", label), class_="pick")

    def parts(self) -> tuple[list[Markup], list[Markup]]:
        """What stands open and what is folded, each in the order of the declaration."""
        first: list[Markup] = []
        folded: list[Markup] = []
        done: set[str] = set()
        tied = {name for names in self.together.values() for name in names}
        for name, (field, default) in self.declared.inputs.items():
            if name in done:
                continue
            group = self.declared.group_of(name)
            if group:
                members = group[1]
                done |= set(members) | {other for member in members for other in self.together.get(member, ())}
                shown = self.group(group[0], members, group[2])
                given = any(self.inputs.get(member) is not None for member in members)
                (first if given or group[2] else folded).append(shown)
            elif name not in tied:
                open_ = default is REQUIRED or self.inputs.get(name) is not None
                (first if open_ else folded).append(self.input(name, field, default))
        return first, folded

    def group(self, group: str, members: tuple[str, ...], needed: bool) -> Markup:
        ways = []
        for member in members:
            names = (member, *self.together.get(member, ()))
            fields = [self.input(name, *self.declared.inputs[name]) for name in names]
            label = lower_first(self.declared.inputs[member][0].label)
            ways.append((label, any(self.inputs.get(name) is not None for name in names), join(fields)))
        return self.ways(
            Place(members[0], f"{self.uid}-{group}-way"), GROUPS.get(group, "Give one of these"), ways, needed
        )

    def ways(self, at: Place, legend: str, ways: list[tuple[str, bool, Markup]], needed: bool) -> Markup:
        """Several ways to give one thing: boxes to choose the way, and the fields of each way."""
        chosen = next((i for i, way in enumerate(ways) if way[1]), 0 if needed else len(ways))
        labels = [way[0] for way in ways] + ([] if needed else ["not given"])
        picks = [
            el(
                "label",
                el("input", type="radio", name=at.id, value=i, checked=i == chosen, data_pick=True),
                el("span", label),
                class_="pick",
            )
            for i, label in enumerate(labels)
        ]
        choice = el("fieldset", el("legend", legend), el("div", *picks, class_="picks"), class_="choice")
        bodies = [el("div", way[2], class_="way", data_way=i, hidden=i != chosen) for i, way in enumerate(ways)]
        return el("div", choice, *bodies, class_="ways", data_ways=True)

    def input(self, name: str, field: Field, default: Any) -> Markup:
        at = Place(name, f"{self.uid}-{name}")
        raw = self.inputs.get(name)
        if self.declared.group_of(name):  # it is left out by choosing another way
            return self.field(field, at, raw, None)
        return self.field(field, at, raw, default, optional=default is not REQUIRED)

    def field(self, field: Field, at: Place, raw: Any, default: Any, *, optional: bool = False) -> Markup:
        if (
            isinstance(raw, dict)
            and set(raw) <= {"value", "default"}
            and "value" in raw
            and not isinstance(field, Quantity)
        ):
            raw = raw["value"]
        if isinstance(field, List):
            return self.points(field, at, raw) if _is_points(field) else self.rows(field, at, raw)
        if isinstance(field, Record):
            return self.record(field, at, raw)
        if isinstance(field, Choice) and field.free is not None:
            return self.word_or_number(field, at, raw, default)
        return control(field, at, Start(raw, default, self.system, self.values), optional=optional)

    def record(self, field: Record, at: Place, raw: Any) -> Markup:
        note, _ = hint(field, at)
        return el(
            "fieldset", el("legend", field.label), note, self.members(field, at, raw), class_="within", data_at=at.path
        )

    def members(self, record: Record, at: Place, raw: Any) -> Markup:
        """The members of an object; those that exclude each other as ways."""
        raw = raw if isinstance(raw, dict) else {}
        shown: list[Markup] = []
        folded: list[Markup] = []
        tied = {name for group in (*record.either, *record.one_of.values()) for name in group}
        groups = {names[0]: (group, names) for group, names in record.one_of.items()}
        first_way = record.either[0][0] if record.either else None
        for name in record.fields:
            if name == first_way:
                ways = [
                    (
                        lower_first(" and ".join(lower_first(record.fields[n].label) for n in group)),
                        any(raw.get(n) is not None for n in group),
                        join(self.member(record, n, at, raw) for n in group),
                    )
                    for group in record.either
                ]
                shown.append(self.ways(at.member("way"), "It is given by", ways, True))
            elif name in groups:
                group, names = groups[name]
                ways = [
                    (
                        lower_first(record.fields[n].label),
                        raw.get(n) is not None,
                        self.field(record.fields[n], at.member(n), raw.get(n), None),
                    )
                    for n in names
                ]
                legend = GROUPS.get(group, "Give one of these")
                shown.append(self.ways(at.member(f"{group}-way"), legend, ways, True))
            elif name not in tied:
                seldom = name in SELDOM or (len(record.fields) > MOST and name not in record.need)
                open_ = raw.get(name) is not None or not seldom
                (shown if open_ else folded).append(self.member(record, name, at, raw))
        if folded:
            shown.append(el("details", el("summary", f"More: {lower_first(record.label)}"), *folded, class_="more"))
        return join(shown)

    def member(self, record: Record, name: str, at: Place, raw: dict[str, Any]) -> Markup:
        default = record.defaults.get(name, REQUIRED if name in record.need else None)
        return self.field(
            record.fields[name], at.member(name), raw.get(name), default, optional=name not in record.need
        )

    def word_or_number(self, field: Choice, at: Place, raw: Any, default: Any) -> Markup:
        """Words to choose from, or a box for a number in their place; both are read as the same input."""
        word = raw if isinstance(raw, str) and raw in field.choices else None
        number = None if word else raw
        chosen = word or (default if number is None and default is not REQUIRED else None)
        published = Choice("A published one", field.choices, help=field.help)
        free, start = Place(at.path, f"{at.id}-free"), Start(number, None, self.system, self.values)
        ways = [
            ("a published one", number is None, control(published, at, Start(chosen, REQUIRED, self.system, {}))),
            ("a number of your own", number is not None, control(field.free, free, start)),  # type: ignore[arg-type]
        ]
        return el("div", self.ways(at.member("way"), field.label, ways, True), data_at=at.path)

    def rows(self, field: List, at: Place, raw: Any) -> Markup:
        """A list of objects, one block each, and the pattern of a new one."""
        entries = raw if isinstance(raw, list) else [{}] * field.low
        note, _ = hint(field, at)
        one = lower_first(field.item.label)
        return el(
            "fieldset",
            el("legend", field.label),
            note,
            el("div", *(self.row(field, at.entry(i), entry) for i, entry in enumerate(entries)), data_rows=True),
            el("template", self.row(field, at.entry("#"), {})),
            el("div", el("button", f"Add: {one}", type="button", class_="act", data_add=True), class_="acts"),
            class_="many",
            data_at=at.path,
            data_list=at.path,
            data_low=field.low,
            data_high=field.high,
        )

    def row(self, field: List, at: Place, raw: Any) -> Markup:
        one = lower_first(field.item.label)
        name = field.item.label if "#" in at.path else f"{field.item.label} {int(at.id.rpartition('-')[2]) + 1}"
        remove = el("button", "Remove", type="button", class_="act", data_remove=True, aria_label=f"Remove this {one}")
        return el(
            "div",
            el("p", name, class_="label", data_count=True),
            self.members(field.item, at, raw),
            remove,
            class_="row",
            data_row=True,
            data_name=field.item.label,
            role="group",
            aria_label=name,
        )

    def points(self, field: List, at: Place, raw: Any) -> Markup:
        """A list of plain numbers as a table of boxes."""
        entries = raw if isinstance(raw, list) else [{}] * max(field.low, 1)
        columns = field.item.fields
        head = []
        for column in columns.values():
            us, si = column.shown("us", {}), column.shown("si", {})  # type: ignore[attr-defined]
            now = us if self.system == "us" else si
            unit = el("span", unit_text(now), data_us=unit_text(us), data_si=unit_text(si))
            head.append(el("th", f"{lower_first(column.label)}, ", unit, scope="col"))
        rows = [self.point(field, at.entry(i), entry) for i, entry in enumerate(entries)]
        note, _ = hint(field, at)
        table = el(
            "table",
            el("thead", el("tr", *head)),
            el("tbody", *rows, data_rows=True),
            class_="points",
            aria_labelledby=f"{at.id}-l",
        )
        acts = el(
            "div",
            el("button", f"Add: {lower_first(field.item.label)}", type="button", class_="act", data_add=True),
            el("button", "Remove the last", type="button", class_="act", data_remove="last"),
            class_="acts",
        )
        return el(
            "div",
            el("p", field.label, class_="label", id=f"{at.id}-l"),
            note,
            table,
            el("template", self.point(field, at.entry("#"), {})),
            acts,
            class_="field many",
            data_at=at.path,
            data_list=at.path,
            data_low=field.low,
            data_high=field.high,
        )

    def point(self, field: List, at: Place, raw: Any) -> Markup:
        raw = raw if isinstance(raw, dict) else {}
        cells = []
        for name, column in field.item.fields.items():
            place = at.member(name)
            us, si = column.shown("us", {}), column.shown("si", {})  # type: ignore[attr-defined]
            shown = us if self.system == "us" else si
            value, unit = split(column, raw.get(name), shown)  # type: ignore[arg-type]
            box = el(
                "input",
                id=place.id,
                data_path=place.path,
                type="text",
                inputmode="decimal",
                value=value if unit == shown else f"{value} {unit}",
                data_us=us,
                data_si=si,
                aria_label=f"{field.item.label}, {lower_first(column.label)}",
            )
            cells.append(el("td", box))
        return el("tr", *cells, data_row=True)


def _is_points(field: List) -> bool:
    """Whether a list is a plain table of numbers."""
    members = field.item.fields
    return (
        len(members) <= 4
        and all(name in field.item.need or name in field.item.defaults for name in members)
        and all(isinstance(m, Quantity) for m in members.values())
    )
