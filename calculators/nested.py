"""An input that is itself the whole input of another calculator."""

from .declare import REQUIRED, Declaration, Record


def inputs_record(declared: Declaration, label: str, *, help: str = "") -> Record:
    """An object with all inputs of another calculator: its fields, what must be given, its groups and defaults.

    Raises ValueError for a calculator with groups of which none need be given.
    """
    if declared.at_most_one:
        raise ValueError(f"{declared.name} has groups of which none need be given")
    whole = Record(
        label,
        {name: field for name, (field, _) in declared.inputs.items()},
        need=[name for name in declared.inputs if declared.required(name) is True],
        one_of=declared.one_of,
        defaults={name: given for name, (_, given) in declared.inputs.items() if given not in (REQUIRED, None)},
        help=help,
    )
    whole.calculator = declared.name
    return whole
