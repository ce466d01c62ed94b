"""Checks a hand-over package with nothing but Python 3: python3 check.py (in the folder the package was unpacked to).

It makes the chain of records again from the documented form, and holds every file and every signed sheet against the hash that
stands in the records. It trusts no program of the sender; compare the head it prints with one you were given by another way.
"""
import csv
import hashlib
import json
import pathlib
import sys
import urllib.parse

HERE = pathlib.Path(__file__).resolve().parent


def sha256(data):
    return hashlib.sha256(data).hexdigest()


def fail(sentence):
    print("DOES NOT HOLD:", sentence)
    sys.exit(1)


def check_chain(site):
    previous, expected, recorded = "0" * 64, 1, {}
    with open(HERE / "records" / "records.jsonl", encoding="utf-8", newline="\n") as lines:
        for line in lines:
            record = json.loads(line)
            if record["sequence"] != expected:
                fail(f"record {expected} is missing; the next one found is {record['sequence']}.")
            head = (
                f"siteprogress record 1\nsite {site}\nsequence {expected}\nkind {record['kind']}\nrecorded {record['recorded']}\n"
                f"by {record['by']}\nbatch {record['batch']}\nprevious {previous}\n\n"
            )
            body = record["body"].encode("utf-8")
            previous = sha256(head.encode("ascii") + body)
            if previous != record["hash"]:
                fail(f"record {expected} does not give the hash kept with it: it, or a record before it, was altered.")
            recorded[expected] = body
            expected += 1
    return previous, recorded


def check_files(recorded):
    files = 0
    for row in rows("tables/files.csv"):
        expected = json.loads(recorded[int(row["Record"])])["sha256"]
        if sha256((HERE / row["File"]).read_bytes()) != expected:
            fail(f"{row['File']} is not the file that record {row['Record']} speaks of.")
        files += 1
    stated = sum(1 for body in recorded.values() if b'"upload":"' in body and "upload" in json.loads(body))
    if files != stated:
        fail(f"{stated} records speak of a file and {files} files are here.")
    return files


def check_sheets():
    signed = 0
    for row in rows("tables/as-built.csv"):
        if not row["Signed sheet SHA-256"]:
            continue
        sheet = HERE / "sheets" / (urllib.parse.quote(row["Pile No"], safe="-_.~") + ".txt")
        if sha256(sheet.read_bytes()) != row["Signed sheet SHA-256"]:
            fail(f"the sheet of pile {row['Pile No']} is not the one that was signed.")
        signed += 1
    return signed


def rows(name):
    with open(HERE / name, encoding="utf-8-sig", newline="") as table:
        yield from csv.DictReader(table)


def main():
    settings = json.loads((HERE / "settings.json").read_text(encoding="utf-8"))
    head, recorded = check_chain(settings["code"])
    files = check_files(recorded)
    signed = check_sheets()
    print(f"records: {len(recorded)}, chain holds")
    print(f"head: {head}")
    print(f"files: {files}, as recorded")
    print(f"signed sheets: {signed}, as signed")


if __name__ == "__main__":
    main()
