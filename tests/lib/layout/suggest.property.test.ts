import fc from "fast-check";
import { expect, it } from "vitest";
import { sampleFile } from "@/lib/intake/sample-file.ts";
import { suggestLayout } from "@/lib/layout/suggest.ts";
import { readByLayout, readingsOf } from "./made-up.ts";

/** Sheets in any of many styles, all of the same known tests: whatever is read of them must be one of those. */

interface Test {
  readonly unit: string;
  readonly date: string;
  readonly meter: number;
  readonly dry: readonly number[];
  readonly leak: readonly number[];
}

const twoDigits = (n: number) => String(n).padStart(2, "0");
const test = fc.record({
  unit: fc.constantFrom("V-1", "V-2", "12", "T 7", "007"),
  date: fc
    .record({
      y: fc.integer({ min: 2019, max: 2025 }),
      m: fc.integer({ min: 1, max: 12 }),
      d: fc.integer({ min: 1, max: 28 }),
    })
    .map(({ y, m, d }) => `${y}-${twoDigits(m)}-${twoDigits(d)}`),
  meter: fc.integer({ min: 1, max: 300_000 }).map((tenths) => tenths / 10),
  dry: fc.array(fc.integer({ min: 700, max: 1400 }), { minLength: 2, maxLength: 2 }),
  leak: fc.array(
    fc.integer({ min: 1, max: 400 }).map((tenths) => tenths / 10),
    { minLength: 2, maxLength: 2 },
  ),
});

const style = fc.record({
  delimiter: fc.constantFrom(",", ";", "\t", "|"),
  sign: fc.constantFrom(".", ","),
  parted: fc.boolean(),
  date: fc.constantFrom("iso", "dmy", "mdy", "dm2", "letters"),
  mark: fc.constantFrom("/", ".", "-"),
  wide: fc.boolean(),
  title: fc.constantFrom("", "Workshop East", "Round 3; spring"),
  unit: fc.constantFrom("Unit", "Vehicle no.", "Fleet Number", "Vehcle no"),
  on: fc.constantFrom("Date", "Tested on", "Date of test"),
  hours: fc.constantFrom("Hours", "Engine hours", "Hour meter (h)"),
  cells: fc.boolean(),
});
type Style = typeof style extends fc.Arbitrary<infer S> ? S : never;

const monthNames = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

function dateIn(date: string, { date: form, mark }: Style): string {
  const [y = "", m = "", d = ""] = date.split("-");
  const forms = {
    iso: date,
    dmy: [d, m, y].join(mark),
    mdy: [m, d, y].join(mark),
    dm2: [Number(d), Number(m), y.slice(2)].join(mark),
    letters: `${Number(d)} ${monthNames[Number(m) - 1]} ${y}`,
  };
  return forms[form as keyof typeof forms];
}

function numberIn(value: number, { sign, parted }: Style): string {
  const [whole = "", decimals] = String(value).split(".");
  const other = sign === "." ? "," : ".";
  const digits = parted ? whole.replace(/\B(?=(\d{3})+$)/g, other) : whole;
  return decimals === undefined ? digits : `${digits}${sign}${decimals}`;
}

function sheetOf(tests: readonly Test[], s: Style): string {
  const quoted = (cell: string) => (cell.includes(s.delimiter) ? `"${cell}"` : cell);
  const line = (cells: readonly string[]) => cells.map(quoted).join(s.delimiter);
  const own = (value: number, unit: string) => `${numberIn(value, s)}${s.cells ? ` ${unit}` : ""}`;
  const head = [s.unit, s.on, s.hours];
  const start = (t: Test) => [t.unit, dateIn(t.date, s), numberIn(t.meter, s)];
  const wide = [
    line([...head, "Dry 1 (kPa)", "Dry 2 (kPa)", "Leak 1 (%)", "Leak 2 (%)"]),
    ...tests.map((t) => line([...start(t), ...t.dry.map((v) => own(v, "kPa")), ...t.leak.map((v) => own(v, "%"))])),
  ];
  const long = [
    line([...head, "Cyl", "Dry (kPa)", "Leak (%)"]),
    ...tests.flatMap((t) =>
      t.dry.map((v, i) => line([...start(t), String(i + 1), own(v, "kPa"), own(t.leak[i] as number, "%")])),
    ),
  ];
  return [...(s.title === "" ? [] : [line([s.title])]), ...(s.wide ? wide : long)].join("\n");
}

const expectedOf = (tests: readonly Test[]) =>
  tests.flatMap((t) =>
    t.dry.flatMap((v, i) => [
      `${t.unit} ${t.date} ${t.meter} h compression-dry ${i + 1}: ${v} kPa`,
      `${t.unit} ${t.date} ${t.meter} h leak-down ${i + 1}: ${t.leak[i]} %`,
    ]),
  );

async function* pieces(text: string) {
  yield text;
}

it("whatever the style of a sheet, what is read of it is what was written, and what is not was asked", async () => {
  let whole = 0;
  let sheets = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(test, { minLength: 2, maxLength: 6 }), style, async (tests, s) => {
      const text = sheetOf(tests, s);
      const sample = await sampleFile({ source: pieces(text) });
      if (sample === null) throw new Error("a sheet is text");
      const { layout, questions } = suggestLayout(sample, { today: "2026-06-30", models: new Set(), units: new Map() });
      const read = layout === null ? null : await readByLayout(text, layout);
      const readings = read === null ? [] : readingsOf(read);
      const expected = expectedOf(tests);
      expect(expected).toEqual(expect.arrayContaining(readings));
      sheets += 1;
      if (readings.length === expected.length) whole += 1;
      else expect(questions.some(({ needed }) => needed)).toBe(true);
    }),
    { seed: 20_260_630, numRuns: 400 },
  );
  expect(whole / sheets).toBeGreaterThan(0.6);
});
