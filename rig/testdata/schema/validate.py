#!/usr/bin/env python3
"""Holds files against the committed JSON Schemas, with a validator that is not
the project's: python3-jsonschema 4.10 or later (Debian package of that name).

From the root of the module:

    python3 rig/testdata/schema/validate.py

It checks the schemas themselves against draft 2020-12, the files of the demo
scenario, the mapping of package parts, and the lists of good and bad files in
cases.json. Of a bad file the list says whether a schema can see that it is bad;
tests in Go hold that the library refuses every one of them.

More files, each after its kind, may be given as arguments:

    python3 rig/testdata/schema/validate.py spec my-rig.json shelf my-parts.json
"""
import glob
import json
import re
import sys

import jsonschema
from jsonschema import Draft202012Validator

SCHEMAS = {
    "spec": "rig/schema/spec.schema.json",
    "shelf": "rig/parts/schema/shelf.schema.json",
    "mapping": "rig/parts/schema/mapping.schema.json",
}


def pattern(validator, value, instance, schema):
    # JSON Schema means ECMA-262, where $ is the end of the text and nothing
    # else; Python's $ also stands before a line break at the end.
    if isinstance(instance, str):
        if not re.search(re.sub(r"\$$", r"\\Z", value), instance):
            yield jsonschema.ValidationError(f"{instance!r} does not match {value!r}")


Validator = jsonschema.validators.extend(Draft202012Validator, {"pattern": pattern})


def load(text):
    return json.loads(text, parse_constant=lambda s: 1 / 0)  # NaN is no JSON


def problem(validators, kind, text):
    """Returns what is wrong with a file, or None."""
    try:
        document = load(text)
    except (ValueError, ZeroDivisionError) as e:
        return f"no JSON: {e}"
    error = jsonschema.exceptions.best_match(validators[kind].iter_errors(document))
    return error and f"{error.json_path}: {error.message[:200]}"


def main(arguments):
    validators = {}
    for kind, file in SCHEMAS.items():
        with open(file, encoding="utf-8") as f:
            schema = json.load(f)
        Draft202012Validator.check_schema(schema)
        validators[kind] = Validator(schema)

    failed = checked = 0

    def expect(name, kind, text, good):
        nonlocal failed, checked
        checked += 1
        p = problem(validators, kind, text)
        if (p is None) != good:
            failed += 1
            print(f"{kind}: {name}: {p or 'is taken'}")

    files = list(zip(arguments[1::2], arguments[::2]))
    if not files:
        files = [(f, "spec") for f in sorted(glob.glob("examples/demo/rig-*.json"))]
        files += [("examples/demo/parts.json", "shelf"), ("rig/parts/testdata/mapping.json", "mapping")]
        with open("rig/testdata/schema/cases.json", encoding="utf-8") as f:
            cases = json.load(f)
        for c in cases["good"] + cases["bad"]:
            text = c["text"] if "text" in c else json.dumps(c["document"])
            expect(c["name"], c["file"], text, not c.get("schema", False))
    for file, kind in files:
        with open(file, encoding="utf-8-sig") as f:
            expect(file, kind, f.read(), True)
    print(f"{checked} files, {failed} judged otherwise than expected")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
