"""What Schemathesis sends gets ids of its own, as a phone would make them; every fifth keeps the one that it had, so that
the same id comes again with the same and with something else. A wrong id stays wrong."""

import itertools
import uuid

import schemathesis

numbers = itertools.count(1)
MAKE_IDS = {"sendReport", "sendWish"}


@schemathesis.hook
def before_call(context, case, kwargs):
    operation = case.operation.definition.raw.get("operationId")
    if operation not in MAKE_IDS:
        return
    try:
        uuid.UUID(str(case.path_parameters["id"]))
    except (KeyError, TypeError, ValueError):
        return
    number = next(numbers)
    if number % 5:
        made = uuid.uuid5(uuid.NAMESPACE_OID, f"{operation} {number}")
        case.path_parameters["id"] = str(made)
