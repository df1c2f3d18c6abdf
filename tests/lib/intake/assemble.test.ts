import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { factAssembler } from "@/lib/intake/assemble.ts";
import type { FleetFacts } from "@/lib/schema/facts.ts";
import { csvOf, goodRow, noFleet, readChunks } from "./read-text.ts";

type Row = Readonly<Record<string, string>>;

async function assemble(files: Readonly<Record<string, Parameters<typeof readChunks>[0]>>) {
  const assembler = factAssembler(noFleet);
  for (const [file, text] of Object.entries(files)) {
    for (const chunk of await readChunks(text, { file })) assembler.add(chunk);
  }
  return assembler.finish();
}

/** Facts without where they were read: rows that change places change their lines. */
const content = (facts: FleetFacts): unknown =>
  JSON.parse(JSON.stringify(facts, (key, value) => (key === "line" || key === "file" ? undefined : value)));

const row: fc.Arbitrary<Row> = fc
  .record({
    unit: fc.constantFrom("V-1", "V-2"),
    engine_model: fc.constantFrom("four", "single", ""),
    test_date: fc.constantFrom("2026-01-01", "2026-01-02"),
    meter: fc.constantFrom("100", "110", "90"),
    cylinder: fc.constantFrom("1", "2", "3"),
    value: fc.constantFrom("10", "12", "950"),
    warm: fc.constantFrom("", "yes", "no"),
    heard_at: fc.constantFrom("", "inlet", "exhaust"),
    attempt: fc.constantFrom("", "2"),
    remarks: fc.constantFrom("", "a", "b"),
  })
  .map((r) => ({ ...goodRow, ...r }));
const rows = fc.array(row, { minLength: 1, maxLength: 14 });

describe("assembled facts", () => {
  it("do not depend on the order of rows", async () => {
    await fc.assert(
      fc.asyncProperty(
        rows.chain((given) => fc.tuple(fc.constant(given), fc.shuffledSubarray(given, { minLength: given.length }))),
        async ([given, shuffled]) => {
          const a = await assemble({ "a.csv": csvOf(given) });
          const b = await assemble({ "a.csv": csvOf(shuffled) });
          expect(content(b.facts)).toEqual(content(a.facts));
          const refusals = (issues: typeof a.issues) => issues.filter((i) => i.severity === "refused").length;
          expect(refusals(b.issues)).toBe(refusals(a.issues));
        },
      ),
    );
  });

  it("do not depend on how rows are spread over files, nor on the order of files", async () => {
    await fc.assert(
      fc.asyncProperty(rows, rows, async (first, second) => {
        const one = await assemble({ "a.csv": csvOf([...first, ...second]) });
        const two = await assemble({ "b.csv": csvOf(second), "a.csv": csvOf(first) });
        expect(content(two.facts)).toEqual(content(one.facts));
      }),
    );
  });

  it("are the same when a file is given twice", async () => {
    await fc.assert(
      fc.asyncProperty(rows, async (given) => {
        const once = await assemble({ "a.csv": csvOf(given) });
        const twice = await assemble({ "a.csv": csvOf(given), "copy.csv": csvOf(given) });
        expect(content(twice.facts)).toEqual(content(once.facts));
      }),
    );
  });

  it("gather all kinds of file, each once, in the order of units", async () => {
    const { facts, issues } = await assemble({
      "r.csv": "unit,repair_date,meter,scope\nV-1,2026-03-05,4200,top-end\n",
      "t.csv": csvOf([{ ...goodRow, unit: "V-2" }, goodRow]),
      "d.csv": "depot,altitude_m\nLow,100\nHigh,1800\nLow,100\n",
      "u.csv": "unit,engine_model,meter_unit\nV-3,single,h\n",
      "m.csv": "unit,reading_date,meter\nV-1,2026-03-09,4300\n",
      "c.csv": "unit,check_date,check,result\nV-3,2026-03-09,oil-use,clear\n",
    });
    expect(facts.tests.map((t) => t.unit)).toEqual(["V-1", "V-2"]);
    expect(facts.depots.map((d) => d.depot)).toEqual(["High", "Low"]);
    expect([facts.units, facts.repairs, facts.meterReadings, facts.checks].map((f) => f.length)).toEqual([1, 1, 1, 1]);
    expect(facts.models.map((m) => m.id)).toEqual(["four", "single"]);
    expect(issues.map((i) => `${i.file}: ${i.words}`)).toEqual([
      "d.csv: line 4: the row repeats line 2 exactly; it counts once",
    ]);
  });

  it("hold nothing of a file that turns out unreadable late", async () => {
    const good = new TextEncoder().encode(
      csvOf(Array.from({ length: 9_000 }, (_, i) => ({ ...goodRow, attempt: `${i + 1}` }))),
    );
    const broken = [good, new Uint8Array([0xff])];
    expect((await readChunks(broken)).length).toBeGreaterThan(1);
    expect((await assemble({ "a.csv": good })).facts.tests).toHaveLength(9_000);
    expect((await assemble({ "a.csv": broken })).facts.tests).toEqual([]);
  });

  it("tell many repeats as a few and a count", async () => {
    const given = Array.from({ length: 60 }, () => goodRow);
    const { issues } = await assemble({ "a.csv": csvOf(given) });
    expect(issues).toHaveLength(21);
    expect(issues.at(-1)).toMatchObject({ line: null, words: "39 more rows repeat others exactly; each counts once" });
  });
});
