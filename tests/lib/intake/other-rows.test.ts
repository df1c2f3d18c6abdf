import { describe, expect, it } from "vitest";
import { csvOf, noFleet, readText } from "./read-text.ts";

describe("units", () => {
  const unit = { unit: "V-1", engine_model: "four", meter_unit: "KM", depot: "Low", class: "van" };
  it("are read with what is blank as not known and in service", async () => {
    const { units, kind, issues } = await readText(csvOf([{ ...unit, status: "", in_service_date: "2020-01-31" }]));
    expect({ kind, issues }).toEqual({ kind: "units", issues: [] });
    expect(units).toEqual([
      {
        unit: "V-1",
        engineModel: "four",
        meterUnit: "km",
        depot: "Low",
        class: "van",
        inServiceDate: "2020-01-31",
        inServiceMeter: null,
        engineSerial: null,
        disposalDate: null,
        status: null,
        statusReason: null,
        file: "a.csv",
        line: 2,
      },
    ]);
  });
  it("name the words of status, and an engine model that is known", async () => {
    expect((await readText(csvOf([{ ...unit, status: "sold", engine_model: "six" }]))).words).toEqual([
      'line 2, status: "sold" is not known; it must be in-service, stopped or retired',
      'line 2, engine_model: the engine model "six" is not known; known are four and single',
    ]);
  });
  it("are not called by what no address or terminal can hold", async () => {
    const named = async (name: string) => (await readText(csvOf([{ ...unit, unit: name }]))).words;
    for (const dots of [".", ".."]) {
      expect(await named(dots)).toEqual([`line 2, unit: "${dots}" is not a name; it needs a letter or a digit`]);
    }
    for (const name of ["V\u001b[2J", "V\u00851", '"V\t1"']) {
      expect(await named(name)).toEqual([expect.stringContaining("holds a control character")]);
    }
    for (const name of ["...", ".1", "50%", "Größe-1"]) expect(await named(name)).toEqual([]);
    expect((await readText(csvOf([{ ...unit, depot: "Low\u0007" }]))).words).toEqual([
      expect.stringContaining("holds a control character"),
    ]);
  });
  it("may leave the fleet on a day to come", async () => {
    const known = { ...noFleet, today: "2026-01-01" };
    expect((await readText(csvOf([{ ...unit, disposal_date: "2030-01-01" }]), { known })).words).toEqual([]);
  });
});

describe("a meter that nothing on wheels reaches", () => {
  it.each([
    ["in_service_meter", { unit: "V-1", engine_model: "four", meter_unit: "km", in_service_meter: "10000001" }],
    ["meter", { unit: "V-1", repair_date: "2026-01-10", meter: "10000001", scope: "top-end" }],
    ["meter", { unit: "V-1", reading_date: "2026-01-10", meter: "10000001" }],
    ["meter", { unit: "V-1", check_date: "2026-01-10", meter: "10000001", check: "borescope", result: "clear" }],
  ])("is refused as %s", async (column, row) => {
    expect((await readText(csvOf([row]))).words).toEqual([
      `line 2, ${column}: "10000001" is not possible; it must lie between 0 and 10,000,000`,
    ]);
    const most = Object.fromEntries(Object.entries(row).map(([k, v]) => [k, v === "10000001" ? "10000000" : v]));
    expect((await readText(csvOf([most]))).words).toEqual([]);
  });
});

describe("depots", () => {
  it("have an altitude or none", async () => {
    const { depots } = await readText("depot,altitude_m\nLow,120\nHigh,\n");
    expect(depots.map((d) => [d.depot, d.altitudeM, d.line])).toEqual([
      ["Low", 120, 2],
      ["High", null, 3],
    ]);
  });
  it("are refused at an altitude that no road reaches", async () => {
    expect((await readText("depot,altitude_m\nLow,12000\n")).words).toEqual([
      'line 2, altitude_m: "12000" is not possible; it must lie between -500 and 9000',
    ]);
  });
});

describe("repairs", () => {
  const repair = { unit: "V-1", repair_date: "2026-01-10", meter: "100", scope: "top-end" };
  it("read cylinders and causes joined by +, each once", async () => {
    const { repairs, issues } = await readText(
      csvOf([{ ...repair, cylinders: "3+2+3", found: "exhaust-valve + inlet valve" }]),
    );
    expect(issues).toEqual([]);
    expect(repairs[0]).toMatchObject({
      cylinders: [2, 3],
      found: ["inlet-valve", "exhaust-valve"],
      cost: null,
      meter: 100,
    });
  });
  it("are refused with costs, hours and days that nobody spends on one", async () => {
    const { words } = await readText(csvOf([{ ...repair, cost: "1e300", labour_hours: "1e6", downtime_days: "4001" }]));
    expect(words).toEqual([
      'line 2, cost: "1e300" is not possible; it must lie between 0 and 1,000,000,000,000',
      'line 2, labour_hours: "1e6" is not possible; it must lie between 0 and 20000',
      'line 2, downtime_days: "4001" is not possible; it must lie between 0 and 4000',
    ]);
  });
  it("take blank and all as all cylinders", async () => {
    const { repairs } = await readText(
      csvOf([
        { ...repair, cylinders: "" },
        { ...repair, cylinders: "ALL" },
      ]),
    );
    expect(repairs.map((r) => r.cylinders)).toEqual(["all", "all"]);
  });
  it("are refused for cylinders, scope or cause that are not known", async () => {
    const { words } = await readText(csvOf([{ ...repair, cylinders: "2,3", scope: "wash", found: "luck" }]));
    expect(words).toEqual([
      'line 2, scope: "wash" is not known; it must be top-end, bottom-end, complete, engine-swap or adjustment',
      'line 2, cylinders: "2,3" must be "all" or cylinder numbers joined by +, such as 2+3',
      expect.stringMatching(/^line 2, found: "luck" is not known; it must be rings-or-bore, piston/),
    ]);
  });
});

describe("meter readings", () => {
  it("read a reset, and are refused after today", async () => {
    const text = "unit,reading_date,meter,meter_reset\nV-1,2026-01-01,35,yes\nV-1,2026-01-02,36,\nV-1,2026-01-03,37,\n";
    const { meterReadings, words } = await readText(text, { known: { ...noFleet, today: "2026-01-02" } });
    expect(meterReadings.map((m) => [m.meter, m.meterReset])).toEqual([
      [35, true],
      [36, false],
    ]);
    expect(words).toEqual(["line 4, reading_date: 2026-01-03 lies after today (2026-01-02)"]);
  });
});

describe("checks", () => {
  const check = {
    unit: "V-1",
    check_date: "2026-01-10",
    check: "borescope",
    result: "fault",
    remarks: "cause: exhaust-valve",
  };
  it("may be of a cylinder or of the engine", async () => {
    const { checks, kind } = await readText(
      csvOf([
        { ...check, cylinder: "2" },
        { ...check, cylinder: "" },
      ]),
    );
    expect(kind).toBe("checks");
    expect(checks.map((c) => [c.cylinder, c.result, c.remarks])).toEqual([
      [2, "fault", "cause: exhaust-valve"],
      [null, "fault", "cause: exhaust-valve"],
    ]);
  });
  it("name the words that they know", async () => {
    expect((await readText(csvOf([{ ...check, result: "bad" }]))).words).toEqual([
      'line 2, result: "bad" is not known; it must be clear, suspect or fault',
    ]);
  });
});
