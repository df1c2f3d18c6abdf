import { describe, expect, it } from "vitest";
import { settleChecks, settleMeterReadings, settleRepairs } from "@/lib/intake/settle-events.ts";
import type { CheckFact, MeterFact, RepairFact } from "@/lib/schema/facts.ts";
import type { RowIssue } from "@/lib/schema/intake.ts";

const at = (line: number) => ({ unit: "B-1", date: "2026-03-01", file: "a.csv", line });
const repair = (line: number, more: Partial<RepairFact> = {}): RepairFact => ({
  ...at(line),
  meter: 900,
  scope: "top-end",
  cylinders: "all",
  found: [],
  findings: [],
  cost: null,
  labourHours: null,
  downtimeDays: null,
  engineSerial: null,
  remarks: null,
  ...more,
});
const check = (line: number, more: Partial<CheckFact> = {}): CheckFact => ({
  ...at(line),
  meter: null,
  cylinder: 1,
  check: "borescope",
  result: "clear",
  value: null,
  valueUnit: null,
  remarks: null,
  ...more,
});
const meter = (line: number, value: number, more: Partial<MeterFact> = {}): MeterFact => ({
  ...at(line),
  meter: value,
  meterReset: false,
  ...more,
});
const words = (issues: readonly RowIssue[]) => issues.map((issue) => `${issue.severity} ${issue.words}`);

describe("events that are told in different ways", () => {
  it("refuses all rows of a repair that is told otherwise, each naming the others", () => {
    const issues: RowIssue[] = [];
    const other = repair(4, { scope: "bottom-end", cost: 9 });
    const cylinder = repair(5, { cylinders: [2], cost: 9 });
    const left = settleRepairs([repair(2), repair(3, { cost: 80 }), other, cylinder], issues);
    expect(left).toEqual([other, cylinder]);
    expect(words(issues)).toEqual([
      "refused line 2: the top-end repair of 2026-03-01 is told otherwise in line 3; none of them was taken",
      "refused line 3: the top-end repair of 2026-03-01 is told otherwise in line 2; none of them was taken",
    ]);
  });

  it("takes two remarks for two checks, but not two results with one remark", () => {
    const issues: RowIssue[] = [];
    const valve = check(4, { remarks: "cause: exhaust-valve", result: "fault" });
    expect(settleChecks([check(2), check(3, { result: "suspect" }), valve], issues)).toEqual([valve]);
    expect(issues.map((issue) => [issue.severity, issue.line])).toEqual([
      ["refused", 2],
      ["refused", 3],
    ]);
  });

  it("counts the last meter reading of a day, of a new meter the first", () => {
    const issues: RowIssue[] = [];
    const rows = [
      meter(2, 120),
      meter(3, 118),
      meter(4, 130, { date: "2026-03-02" }),
      meter(5, 7, { meterReset: true }),
      meter(6, 3, { meterReset: true }),
    ];
    expect(settleMeterReadings(rows, issues).map((row) => row.line)).toEqual([2, 4, 6]);
    expect(words(issues)).toEqual([
      "mention line 3, meter: line 2 has another reading of the same day, which counts instead",
      "mention line 5, meter: line 6 has another reading of the same day, which counts instead",
    ]);
  });
});
