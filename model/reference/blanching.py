"""How long a vegetable is blanched before it is frozen, where that is published."""

from model.reference.read import table


def blanching(crop: str) -> str:
    """Say how a crop is blanched before it is frozen; blank where it is not.

    A time that nobody published here is left to a current table, never filled in.
    """
    row = next((row for row in table("blanching") if row["crop"] == crop), None)
    if row is None:
        return ""
    if not row["minutes"]:
        return "blanch for the time of a current table"
    minutes, of = row["minutes"].replace("-", " to "), row["of"]
    return f"blanch {minutes} minutes{f', {of}' if of else ''}"
