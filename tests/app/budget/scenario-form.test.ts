import { describe, expect, it } from "vitest";
import { readScenarioForm, type ScenarioForm } from "@/app/_ui/budget/scenario-form.ts";

const form: ScenarioForm = {
  name: " Wait ",
  kind: "postpone",
  months: "3",
  percent: "10",
  depot: "",
  engineModel: "petrol-4-a",
  limit: "leak-down",
  by: "-3",
  count: "1",
  price: "4.500,50",
  month: "2026-10",
};
const read = (more: Partial<ScenarioForm>, sign: "." | "," = ".") => readScenarioForm({ ...form, ...more }, sign);

describe("the form of a what-if", () => {
  it("is read as the change that was chosen, whatever stands in fields that it does not show", () => {
    expect(read({ percent: "no figure" })).toEqual({ ok: true, name: "Wait", change: { kind: "postpone", months: 3 } });
    expect(read({ kind: "run-to-limit", months: "" })).toMatchObject({ change: { kind: "run-to-limit" } });
    expect(read({ kind: "capacity", depot: "Highcol" })).toMatchObject({ change: { percent: 10, depot: "Highcol" } });
    expect(read({ kind: "capacity" })).toMatchObject({ change: { percent: 10, depot: null } });
    expect(read({ kind: "use", percent: "−12,5" }, ",")).toMatchObject({ change: { percent: -12.5 } });
    expect(read({ kind: "limit" })).toMatchObject({ change: { of: "leak-down", by: -3 } });
    expect(read({ kind: "exchange" }, ",")).toMatchObject({ change: { price: 4500.5, month: "2026-10" } });
  });

  it("says at its field what is not possible", () => {
    const problems = (more: Partial<ScenarioForm>) => {
      const told = read(more);
      return told.ok ? null : Object.keys(told.problems);
    };
    expect(problems({ name: " " })).toEqual(["name"]);
    expect(problems({ months: "2.5" })).toEqual(["months"]);
    expect(problems({ months: "40" })).toEqual(["months"]);
    expect(problems({ kind: "capacity", percent: "0" })).toEqual(["percent"]);
    expect(problems({ kind: "limit", by: "0" })).toEqual(["by"]);
    expect(problems({ kind: "exchange", month: "2026-13", price: "" })).toEqual(["price", "month"]);
    expect(problems({ kind: "exchange", price: "1,400" })).toEqual(["price"]);
  });
});
