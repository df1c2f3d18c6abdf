import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvOf, goodRow, joinChunks, readChunks, readText } from "./read-text.ts";

const text = fc.string({
  unit: fc.constantFrom("a", "1", "é", '"', ",", "\n", "\r", " "),
  maxLength: 12,
});
const row = fc.record({
  cylinder: fc.constantFrom("1", "2", "3", "x"),
  value: fc.constantFrom("10", "12,5", "950", "n/a"),
  remarks: text,
  tested_by: text,
});

describe("a file", () => {
  it("gives the same however its bytes are cut", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(row, { minLength: 1, maxLength: 6 }),
        fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 6 }),
        async (rows, sizes) => {
          const bytes = new TextEncoder().encode(csvOf(rows.map((r) => ({ ...goodRow, ...r }))));
          const pieces: Uint8Array[] = [];
          for (let at = 0, i = 0; at < bytes.length; i++) {
            const size = sizes[i % sizes.length] ?? 1;
            pieces.push(bytes.subarray(at, at + size));
            at += size;
          }
          expect(await readText(pieces)).toEqual(await readText(bytes));
        },
      ),
    );
  });

  it("comes in chunks that say how far they are; a test spread over them comes in fragments", async () => {
    const rows = Array.from({ length: 12_000 }, (_, i) => ({
      ...goodRow,
      cylinder: `${(i % 4) + 1}`,
      attempt: `${1 + (i >> 2)}`,
    }));
    const chunks = await readChunks(csvOf(rows));
    expect(chunks.length).toBeGreaterThan(2);
    const counts = chunks.map((c) => c.rows);
    expect(counts).toEqual([...counts].sort((a, b) => a - b));
    const whole = joinChunks(chunks);
    expect(whole.rows).toBe(12_000);
    expect(whole.issues).toEqual([]);
    expect(whole.tests.flatMap((t) => t.readings.map((r) => r.line))).toEqual(rows.map((_, i) => i + 2));
    expect(whole.tests.length).toBeGreaterThanOrEqual(3_000);
    expect(whole.tests.length).toBeLessThan(3_000 + chunks.length);
  });

  it("counts physical lines: quoted line breaks, blank lines and lines before the header", async () => {
    const rows = csvOf([
      { ...goodRow, remarks: "one\r\ntwo" },
      { ...goodRow, value: "x", remarks: "" },
    ]);
    const { issues, tests } = await readText(`\n\n${rows}\n`);
    expect(tests[0]?.readings[0]).toMatchObject({ line: 4, remarks: "one\r\ntwo" });
    expect(issues.map((i) => i.line)).toEqual([6]);
  });

  it("may be meant to be of a kind, and is then refused for what that lacks", async () => {
    const { words, kind, fileRefused } = await readText(csvOf([goodRow]), { kind: "repairs" });
    expect({ kind, fileRefused }).toEqual({ kind: "repairs", fileRefused: true });
    expect(words).toEqual(["the file looks like repairs, but the columns repair_date and scope are missing"]);
  });

  it("is refused where quotes leave no header", async () => {
    const { words, fileRefused } = await readText('"unit,test\n');
    expect(fileRefused).toBe(true);
    expect(words).toContain("the file has no row that names the columns");
  });
});
