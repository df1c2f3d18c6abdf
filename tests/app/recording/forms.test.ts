import { describe, expect, it } from "vitest";
import { type CheckFields, readCheck } from "@/app/_ui/recording/check-form.ts";
import { readDisposal } from "@/app/_ui/recording/disposal-form.ts";
import { type EngineFields, type EnginesKnown, readEngine } from "@/app/_ui/recording/engine-form.ts";
import { readMeter, readNewMeter } from "@/app/_ui/recording/meter-form.ts";
import { type RepairFields, readRepair } from "@/app/_ui/recording/repair-form.ts";
import { readStatus, unitRow } from "@/app/_ui/recording/status-form.ts";
import { type JudgementFields, readJudgement } from "@/app/_ui/recording/test-form.ts";
import { judgementFact, reading, testFact } from "../../lib/sealing/facts.ts";

const context = { unit: "V-101", cylinders: 4, latest: "2026-06-30", sign: ".", by: "R. Ames" } as const;

const repair: RepairFields = {
  what: "repair",
  date: "2026-06-01",
  meter: "120 500",
  scope: "top-end",
  cylinders: [false, true, true, false],
  findings: [null, ["exhaust-valve", "inlet-valve"], [], null],
  cost: "1,240.50",
  labourHours: "14,5",
  downtimeDays: "",
  remarks: "  seat cut\r\n",
};

describe("a repair", () => {
  it("is read with its findings by cylinder; what was found anywhere was found in the engine", () => {
    expect(readRepair(repair, context)).toEqual({
      ok: true,
      value: {
        unit: "V-101",
        date: "2026-06-01",
        meter: 120_500,
        scope: "top-end",
        cylinders: [2, 3],
        found: ["inlet-valve", "exhaust-valve"],
        findings: [
          { cylinder: 2, causes: ["inlet-valve", "exhaust-valve"] },
          { cylinder: 3, causes: [] },
        ],
        cost: 1240.5,
        labourHours: 14.5,
        downtimeDays: null,
        engineSerial: null,
        remarks: "seat cut",
      },
    });
  });

  it("of every cylinder is one of all; boxes beyond the engine's cylinders do not count", () => {
    const all = readRepair({ ...repair, cylinders: Array(16).fill(true) }, context);
    expect(all).toMatchObject({ ok: true, value: { cylinders: "all" } });
    const beyond = readRepair({ ...repair, cylinders: [false, false, false, false, true] }, context);
    expect(beyond).toMatchObject({ ok: false, problems: { cylinders: expect.any(String) } });
  });

  it.each([
    [{ date: "2026-07-01" }, "date", "The day lies in the future."],
    [{ date: "" }, "date", "Give the day as year, month and day."],
    [{ date: "0026-06-01" }, "date", "The year has four figures and is not before 1900."],
    [{ meter: "" }, "meter", "Give what the meter showed."],
    [{ meter: "1,400" }, "meter", "“1,400” may be read as 1400 or as 1.4: write 1400 or 1.4."],
    [{ meter: "-1" }, "meter", "A figure from 0 to 10,000,000."],
    [{ scope: "" as const }, "scope", "Say what was done."],
    [{ cylinders: [] }, "cylinders", "Choose the cylinders that were worked on."],
    [{ labourHours: "many" }, "labourHours", "A figure from 0 to 20,000."],
    [{ downtimeDays: "4001" }, "downtimeDays", "A figure from 0 to 4,000."],
    [{ remarks: "a\u0007b" }, "remarks", "Letters and figures that can be seen."],
  ])("%j: told at its field", (change, field, reason) => {
    expect(readRepair({ ...repair, ...change }, context)).toEqual({ ok: false, problems: { [field]: reason } });
  });
});

describe("other evidence", () => {
  const check: CheckFields = {
    what: "check",
    date: "2026-06-01",
    meter: "",
    cylinder: "3",
    check: "valve-clearance",
    result: "fault",
    value: "-0.05",
    valueUnit: "mm",
    cause: "valve-timing",
    remarks: "too tight",
  };

  it("is read, its cause in the remarks as files tell it", () => {
    const read = readCheck(check, context);
    expect(read).toMatchObject({
      ok: true,
      value: { cylinder: 3, value: -0.05, valueUnit: "mm", remarks: "cause: valve-timing; too tight", meter: null },
    });
    expect(readCheck({ ...check, cylinder: "", cause: "", remarks: "" }, context)).toMatchObject({
      ok: true,
      value: { cylinder: null, remarks: null },
    });
  });

  it.each([
    [{ cylinder: "5" }, "cylinder"],
    [{ check: "" as const }, "check"],
    [{ result: "" as const, cause: "" as const }, "result"],
    [{ result: "clear" as const }, "cause"],
    [{ value: "tight" }, "value"],
    [{ valueUnit: "" }, "valueUnit"],
  ])("%j is refused at its field", (change, field) => {
    expect(readCheck({ ...check, ...change }, context)).toMatchObject({
      ok: false,
      problems: { [field]: expect.any(String) },
    });
  });
});

describe("meters", () => {
  it("are read by themselves, or as the last of an old one and the first of a new one", () => {
    const at = { unit: "V-101", date: "2026-06-01" };
    expect(readMeter({ what: "meter", date: at.date, meter: "812.5" }, context)).toEqual({
      ok: true,
      value: { ...at, meter: 812.5, meterReset: false },
    });
    expect(readNewMeter({ what: "new-meter", date: at.date, last: "900", first: "0" }, context)).toEqual({
      ok: true,
      value: [
        { ...at, meter: 900, meterReset: false },
        { ...at, meter: 0, meterReset: true },
      ],
    });
    expect(readNewMeter({ what: "new-meter", date: at.date, last: "", first: "3" }, context)).toEqual({
      ok: true,
      value: [{ ...at, meter: 3, meterReset: true }],
    });
    expect(readNewMeter({ what: "new-meter", date: at.date, last: "", first: "" }, context)).toMatchObject({
      ok: false,
      problems: { first: expect.any(String) },
    });
  });
});

describe("a status", () => {
  it("needs a reason, and to be another than it is", () => {
    const now = "in-service" as const;
    expect(readStatus({ what: "status", status: "stopped", reason: " gearbox out " }, { ...context, now })).toEqual({
      ok: true,
      value: unitRow("V-101", { status: "stopped", statusReason: "gearbox out" }),
    });
    expect(readStatus({ what: "status", status: "in-service", reason: " . " }, { ...context, now })).toEqual({
      ok: false,
      problems: {
        status: "The unit has this status already.",
        reason: "Say why: whoever plans the next repair will ask.",
      },
    });
  });
});

describe("a planned disposal", () => {
  const read = (date: string, now: string | null = null) =>
    readDisposal({ what: "disposal", date }, { ...context, now });

  it("is a day to come, and another than is planned", () => {
    expect(read("2027-12-31")).toEqual({ ok: true, value: unitRow("V-101", { disposalDate: "2027-12-31" }) });
    expect(read("2026-06-29")).toMatchObject({ ok: false, problems: { date: expect.stringMatching(/gone by/) } });
    expect(read("2027-12-31", "2027-12-31")).toMatchObject({ ok: false });
    expect(read("")).toMatchObject({ ok: false });
  });
});

describe("a swap", () => {
  const fields: EngineFields = {
    what: "engine",
    date: "2026-06-01",
    meter: "1000",
    serial: "",
    outSerial: "",
    from: "unit",
    otherUnit: "V-102",
    otherMeter: "2000",
    otherGets: "exchanged",
    otherSerial: "",
    cost: "",
    labourHours: "9",
    downtimeDays: "",
    remarks: "",
  };
  const units: Readonly<Record<string, EnginesKnown>> = {
    "V-101": { serial: "A", isFirst: true },
    "V-102": { serial: "B", isFirst: true },
    "V-103": { serial: null, isFirst: true },
    "V-104": { serial: null, isFirst: false },
  };
  const read = (more: Partial<EngineFields>, known = units["V-101"]!) =>
    readEngine(
      { ...fields, ...more },
      {
        ...context,
        known,
        unitOf: (unit) => units[unit] ?? null,
        fittedIn: (serial) => Object.keys(units).find((unit) => units[unit]?.serial === serial) ?? null,
      },
    );
  const serials = (answer: ReturnType<typeof read>) =>
    answer.ok ? answer.value.repairs.map(({ unit, engineSerial }) => [unit, engineSerial]) : answer.problems;

  it("between two units exchanges their engines, and each row has its unit's meter", () => {
    const answer = read({});
    expect(serials(answer)).toEqual([
      ["V-101", "B"],
      ["V-102", "A"],
    ]);
    expect(answer).toMatchObject({
      value: {
        repairs: [
          { meter: 1000, labourHours: 9 },
          { meter: 2000, labourHours: null },
        ],
        units: [],
      },
    });
  });

  it("may leave the other unit without an engine that is known, or with a third one", () => {
    expect(serials(read({ otherGets: "nothing" }))).toEqual([
      ["V-101", "B"],
      ["V-102", null],
    ]);
    expect(serials(read({ otherGets: "another", otherSerial: "C" }))).toEqual([
      ["V-101", "B"],
      ["V-102", "C"],
    ]);
    expect(serials(read({ otherGets: "another", otherSerial: "A" }))).toHaveProperty("otherSerial");
    expect(serials(read({ otherGets: "another" }))).toHaveProperty("otherSerial");
  });

  it("out of the store is a row of the unit alone, of an engine that is in no other unit", () => {
    expect(serials(read({ from: "store", serial: "F-1" }))).toEqual([["V-101", "F-1"]]);
    expect(serials(read({ from: "store" }))).toEqual([["V-101", null]]);
    expect(serials(read({ from: "store", serial: "B" }))).toHaveProperty("serial");
    expect(serials(read({ from: "store", serial: "A" }))).toHaveProperty("serial");
  });

  it("names an engine that no record names, where it can only be that one", () => {
    const answer = read({ otherUnit: "V-103", serial: "N-1" });
    expect(serials(answer)).toEqual([
      ["V-101", "N-1"],
      ["V-103", "A"],
    ]);
    expect(answer).toMatchObject({ value: { units: [unitRow("V-103", { engineSerial: "N-1" })] } });
    expect(serials(read({ otherUnit: "V-103" }))).toHaveProperty("serial");
    expect(serials(read({ otherUnit: "V-104", serial: "N-1" }))).toHaveProperty("otherUnit");
    const nameless = { serial: null, isFirst: true };
    expect(serials(read({}, nameless))).toHaveProperty("outSerial");
    expect(read({ outSerial: "O-1" }, nameless)).toMatchObject({
      value: { units: [unitRow("V-101", { engineSerial: "O-1" })] },
    });
    expect(serials(read({ outSerial: "O-1" }, { serial: null, isFirst: false }))).toHaveProperty("outSerial");
  });

  it("knows the other unit", () => {
    for (const otherUnit of ["", "V-101", "Z-9"]) expect(serials(read({ otherUnit }))).toHaveProperty("otherUnit");
    expect(serials(read({ serial: "X" }))).toHaveProperty("serial");
    expect(serials(read({ otherMeter: "" }))).toHaveProperty("otherMeter");
  });
});

const test = testFact({
  readings: [1, 2, 3].map((cylinder) => reading({ cylinder, value: [7.25, 8, 28][cylinder - 1] ?? 0 })),
});
const named = { date: test.date, test: test.test, attempt: 1, instrument: null, seen: "" } as const;

describe("a judgement", () => {
  const fields: JudgementFields = {
    what: "judgement",
    ...named,
    cylinder: "3",
    verdict: "set-aside",
    reason: "hose leaked",
  };
  it("is the viewer's, of the test or of a cylinder that it measured", () => {
    expect(readJudgement(fields, test, { ...context, judged: [] })).toMatchObject({
      ok: true,
      value: { unit: "V-101", cylinder: 3, verdict: "set-aside", reason: "hose leaked", judgedBy: "R. Ames" },
    });
    for (const cylinder of ["4", "x"]) {
      const read = readJudgement({ ...fields, cylinder }, test, { ...context, judged: [] });
      expect(read).toMatchObject({ ok: false, problems: { cylinder: expect.any(String) } });
    }
  });

  it("is of one cylinder where it says whether a fault had begun", () => {
    for (const verdict of ["fault", "no-fault"] as const) {
      expect(readJudgement({ ...fields, verdict }, test, { ...context, judged: [] })).toMatchObject({ ok: true });
      expect(readJudgement({ ...fields, verdict, cylinder: "" }, test, { ...context, judged: [] })).toMatchObject({
        ok: false,
        problems: { cylinder: "Say in which cylinder." },
      });
    }
  });

  it("can be taken back where there is one of just that", () => {
    const back = { ...fields, verdict: "none" } as const;
    const judged = [judgementFact({ cylinder: 3 })];
    expect(readJudgement(back, test, { ...context, judged })).toMatchObject({ ok: true, value: { verdict: "none" } });
    expect(readJudgement({ ...back, cylinder: "" }, test, { ...context, judged })).toMatchObject({
      ok: false,
      problems: { verdict: "Nobody judged it, so there is nothing to take back." },
    });
    expect(readJudgement({ ...fields, verdict: "", reason: "" }, test, { ...context, judged })).toMatchObject({
      ok: false,
      problems: { verdict: expect.any(String), reason: expect.any(String) },
    });
  });
});
