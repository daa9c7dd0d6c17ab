"""What Schemathesis sends gets ids of its own, as a phone would make them; every fifth keeps the one that it had, so that
the same id comes again with the same and with something else. A wrong id stays wrong. And it learns that a piece
of a photo is bytes. That they ever are a picture is not to be hoped for: kept photos have tests of their own."""

import itertools
import uuid

import schemathesis

numbers = itertools.count(1)
MAKE_IDS = {"sendReport": "id", "sendWish": "id", "sendPhotoPiece": "photo"}


@schemathesis.serializer("application/partial-upload")
def piece(context, value):
    value = getattr(value, "data", value)
    return value if isinstance(value, bytes) else str(value).encode("utf-8", "replace")


@schemathesis.hook
def before_call(context, case, kwargs):
    operation = case.operation.definition.raw.get("operationId")
    if operation not in MAKE_IDS:
        return
    name = MAKE_IDS[operation]
    try:
        uuid.UUID(str(case.path_parameters[name]))
    except (KeyError, TypeError, ValueError):
        return
    number = next(numbers)
    if number % 5:
        made = uuid.uuid5(uuid.NAMESPACE_OID, f"{operation} {number}")
        case.path_parameters[name] = str(made)
