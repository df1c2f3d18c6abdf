import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { correctionFacts } from "@/app/_ui/recording/correction-facts.ts";
import {
  type CorrectionFields,
  correctionFieldsOf,
  fromOtherEnd,
  type ReadingFields,
  readInUnit,
} from "@/app/_ui/recording/correction-fields.ts";
import { readCorrection } from "@/app/_ui/recording/correction-form.ts";
import type { JudgementFact, TestFact } from "@/lib/schema/facts.ts";
import { judgementFact, reading, testFact } from "../../lib/sealing/facts.ts";

/** How the form of a correction is read, and what facts it comes to. */

const context = { unit: "V-101", cylinders: 4, latest: "2026-06-30", sign: ".", by: "R. Ames" } as const;
const test = testFact({
  instrument: "T-1",
  warm: true,
  readings: [
    reading({ cylinder: 1, value: 7.25, supply: 550, heardAt: ["crankcase"] }),
    reading({ cylinder: 2, value: 8, remarks: "hissed" }),
    reading({ cylinder: 3, value: 28 }),
  ],
});
const compression = testFact({
  test: "compression-dry",
  crankingRpm: 210,
  readings: [1100, 1120, 1090].map((value, i) =>
    reading({ cylinder: i + 1, value, valueUnit: "kPa", firstStroke: 700 }),
  ),
});

type More = Partial<CorrectionFields> & { readonly at?: readonly [number, Partial<ReadingFields>] };
function typed({ at, ...more }: More, of: TestFact = test): CorrectionFields {
  const fields = { ...correctionFieldsOf(of, "seen"), reason: "misread", ...more };
  const readings = fields.readings.map((one, i) => (i === at?.[0] ? { ...one, ...at[1] } : one));
  return { ...fields, readings };
}
const refused = (more: More, of: TestFact = test) => {
  const read = readCorrection(typed(more, of), of, context);
  return read.ok ? {} : read.problems;
};
function factsOf(more: More, of: TestFact = test, judged: readonly JudgementFact[] = []) {
  const read = readCorrection(typed(more, of), of, context);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return correctionFacts(read.value, of, { judged, by: context.by });
}

describe("the form", () => {
  it("begins with what stands, and then nothing is corrected", () => {
    for (const of of [test, compression]) expect(Object.keys(refused({}, of))).toEqual(["reason"]);
  });

  it("needs a reason and possible figures, each refused beside its field", () => {
    expect(refused({ meter: "1010", reason: " " })).toHaveProperty("reason");
    for (const [more, field] of [
      [{ at: [0, { value: "" }] }, "readings.0.value"],
      [{ at: [1, { value: "101" }] }, "readings.1.value"],
      [{ at: [1, { cylinder: "3" }] }, "readings.2.cylinder"],
      [{ at: [1, { cylinder: "5" }] }, "readings.1.cylinder"],
      [{ at: [1, { cylinder: "1.5" }] }, "readings.1.cylinder"],
      [{ at: [1, { valueUnit: "kPa" }] }, "readings.1.supply"],
      [{ at: [0, { valueUnit: "kPa", value: "560" }] }, "readings.0.value"],
      [{ at: [0, { order: "0" }] }, "readings.0.order"],
      [{ meter: "" }, "meter"],
      [{ asDate: "2026-07-01" }, "asDate"],
      [{ asDate: "" }, "asDate"],
      [{ asAttempt: "" }, "asAttempt"],
      [{ asUnit: " " }, "asUnit"],
      [{ orificeMm: "0.04" }, "orificeMm"],
      [{ altitudeM: "9001" }, "altitudeM"],
      [{ barometerKpa: "1013" }, "barometerKpa"],
      [{ asTest: "compression-dry" }, "readings.0.valueUnit"],
    ] as const) {
      expect(refused(more), field).toHaveProperty([field]);
    }
    expect(refused({ at: [0, { value: "11000" }] }, compression)).toHaveProperty(["readings.0.value"]);
    expect(refused({ crankingRpm: "3500" }, compression)).toHaveProperty("crankingRpm");
    expect(refused({ altitudeM: "-12" })).toEqual({});
  });

  it("reads what it printed as it printed it, whatever the viewer's decimal sign", () => {
    const value = fc.oneof(fc.double({ min: 0, max: 100, noNaN: true }), fc.integer({ min: 0, max: 100 }));
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 4 }), fc.constantFrom(".", ","), (values, sign) => {
        const of = { ...test, readings: values.map((one, i) => reading({ cylinder: i + 1, value: one })) };
        const read = readCorrection(typed({ meter: "1001" }, of), of, { ...context, sign: sign as "." | "," });
        expect(read.ok && read.value.test.readings).toEqual(of.readings);
      }),
    );
  });

  it("takes what a kind of test does not have away with the kind, and leaves it where the kind stays", () => {
    const read = readCorrection(
      typed(
        {
          asTest: "leak-down",
          readings: readInUnit(typed({}, compression).readings, "%").map((one) => ({ ...one, value: "9" })),
        },
        compression,
      ),
      compression,
      context,
    );
    expect(read).toMatchObject({
      ok: true,
      value: { test: { crankingRpm: null, readings: [{ firstStroke: null }, {}, {}] } },
    });
    const odd = { ...test, crankingRpm: 200 };
    expect(readCorrection(typed({ meter: "1001" }, odd), odd, context)).toMatchObject({
      value: { test: { crankingRpm: 200 } },
    });
  });
});

describe("its facts", () => {
  it("tell what differs and no more, so that the rest falls with what told it", () => {
    const { told, tellsWhole } = factsOf({ at: [2, { value: "18" }] });
    expect(tellsWhole).toBe(false);
    expect(told.tests).toMatchObject([{ meter: 1000, warm: null, readings: [{ cylinder: 3, value: 18 }] }]);
    expect(told.judgements).toEqual([]);
    const meter = factsOf({ meter: "1010", warm: "no" }).told;
    expect(meter.tests).toMatchObject([{ meter: 1010, warm: false, readings: [{ cylinder: 1, supply: null }] }]);
  });

  it("are told whole where something becomes blank", () => {
    const { told, tellsWhole } = factsOf({ warm: "", at: [0, { heardAt: [], supply: "" }] });
    expect(tellsWhole).toBe(true);
    expect(told.tests).toMatchObject([
      { warm: null, readings: [{ cylinder: 1, value: 7.25, supply: null, heardAt: [] }] },
    ]);
  });

  it("of another unit of pressure tell the figures as they are, with what was read in it", () => {
    const { told } = factsOf({ readings: readInUnit(typed({}, compression).readings, "psi") }, compression);
    expect(told.tests?.[0]?.readings).toMatchObject(
      [1100, 1120, 1090].map((value) => ({ value, valueUnit: "psi", firstStroke: 700 })),
    );
  });

  it("counted from the other end, judgements go with their readings, and a cylinder that lost its own is withdrawn", () => {
    const judged = [judgementFact({ instrument: "T-1", cylinder: 1, reason: "hose" })];
    const { told } = factsOf({ readings: fromOtherEnd(typed({}).readings, 4) }, test, judged);
    expect(told.tests?.[0]?.readings.map(({ cylinder, value }) => [cylinder, value])).toEqual([
      [2, 28],
      [3, 8],
      [4, 7.25],
    ]);
    expect(told.judgements).toMatchObject([
      { cylinder: 4, verdict: "set-aside", reason: "hose", judgedBy: judged[0]?.judgedBy },
      { cylinder: 1, verdict: "withdrawn", reason: "told again as cylinder 4: misread", judgedBy: "R. Ames" },
    ]);
  });

  it("counted back, what was withdrawn stands again", () => {
    const gone = judgementFact({ instrument: "T-1", cylinder: 1, verdict: "withdrawn", reason: "told again" });
    const moved = { ...test, readings: [...test.readings, reading({ cylinder: 4, value: 7.25 })] };
    const counts = { ...moved, readings: moved.readings.slice(1) };
    const read = readCorrection(
      typed({ readings: fromOtherEnd(typed({}, counts).readings, 4) }, counts),
      counts,
      context,
    );
    const { told } = correctionFacts(read.ok ? read.value : (undefined as never), moved, {
      judged: [gone],
      by: "R. Ames",
    });
    expect(told.judgements).toMatchObject([
      { cylinder: 1, verdict: "none" },
      { cylinder: 4, verdict: "withdrawn" },
    ]);
  });

  it.each([
    [{ asDate: "2025-02-10" }, "told again as leak-down of 10 Feb 2025: misread"],
    [{ asAttempt: "2" }, "told again as leak-down of 10 Jan 2025, attempt 2: misread"],
    [{ asInstrument: " " }, "told again as leak-down of 10 Jan 2025, tester not recorded: misread"],
    [{ asUnit: "V-102" }, "told again as leak-down of V-102 on 10 Jan 2025: misread"],
  ] as const)("under another name %o are told whole, and the old ones withdrawn", (more, reason) => {
    const judged = [judgementFact({ instrument: "T-1" }), judgementFact({ instrument: "T-1", cylinder: 2 })];
    const { told, isRenamed } = factsOf(more, test, judged);
    expect(isRenamed).toBe(true);
    expect(told.tests?.[0]?.readings).toHaveLength(3);
    const [withdrawn, ...carried] = told.judgements ?? [];
    expect(withdrawn).toMatchObject({
      unit: "V-101",
      date: "2025-01-10",
      verdict: "withdrawn",
      cylinder: null,
      reason,
    });
    expect(carried.map(({ cylinder, verdict }) => [cylinder, verdict])).toEqual([
      [null, "set-aside"],
      [2, "set-aside"],
    ]);
    for (const { unit, date, attempt, instrument } of carried) {
      expect({ unit, date, attempt, instrument }).toEqual({
        unit: told.tests?.[0]?.unit,
        date: told.tests?.[0]?.date,
        attempt: told.tests?.[0]?.attempt,
        instrument: told.tests?.[0]?.instrument,
      });
    }
  });
});
