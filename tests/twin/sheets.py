"""Works out again, from the description alone, what answers.json says belongs on each sheet of a class."""

import json
import sys

from hardware import Machine


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        answers = json.load(file)
    with open(sys.argv[2], encoding="utf-8") as file:
        texts = json.load(file)
    about = {q["question"]: q for q in answers["questions"] if "machine" in q}
    machines = {
        number: Machine(texts[q["machine"]], texts.__getitem__, {n: int(w) for n, w in q["width"].items()})
        for number, q in about.items()
    }
    compared, wrong = 0, []

    def same(what, theirs, ours):
        nonlocal compared
        compared += 1
        if theirs != ours:
            wrong.append(f"{what}: the sheet says {theirs}, the twin {ours}")

    for sheet in answers["sheets"]:
        for answer in sheet["answers"]:
            if "operands" not in answer:
                continue
            machine = machines[answer["question"]]
            numbers = [int(answer["operands"][name]) for name, _, _ in machine.operands]
            rows = machine.walk([n % (1 << width) for n, (_, width, _) in zip(numbers, machine.operands)])
            where = f"{sheet['sheet']}, question {answer['question']}"
            results = machine.outcome(rows[-1][2])
            ours = {name: str(r) for (name, _, _), r in zip(machine.results, results)}
            same(where, answer["results"], ours)
            for table in answer["tables"]:
                same(f"{where}, rows", len(table["rows"]), len(rows))
                for row, (_, _, registers, _) in zip(table["rows"], rows):
                    said = dict(zip(table["columns"], (c.replace(" ", "") for c in row["cells"])))
                    held = {n: format(bits, f"0{w}b") for (n, w, _), bits in zip(machine.registers, registers)}
                    same(f"{where}, cycle {row['cycle']}", {n: said[n] for n in held if n in said}, held)
            for field in answer["fields"]:
                if field["name"] in ours:
                    same(f"{where}, {field['name']}", field["expected"], ours[field["name"]])
    print(json.dumps({"compared": compared, "wrong": wrong[:8]}))


main()
